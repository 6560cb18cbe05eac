import { shortHash } from "@/lib/edition/short-hash";
import type { PageItem, PageWords } from "../pages/laid-out-edition";
import type { PageShape } from "./page-shape";
import type { TitleBlock } from "./print-input";
import { sayDate } from "./say-date";
import type { TextStyle, TypeSetter } from "./type-setter";

/** "Concertino · Edition № 4". */
export function nameEdition(block: TitleBlock): string {
  return `${block.title} · Edition № ${block.editionNumber}`;
}

/** An instrument's name inside a line: "clarinet in B♭". */
export const insideLine = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

const text = (words: string, x: number, y: number, style: TextStyle): PageItem => ({
  kind: "text",
  ...{ text: words, x, y, style },
});
const rule = (x1: number, x2: number, y: number, thickness: number): PageItem => ({
  kind: "rule",
  ...{ x1, x2, y, thickness },
});

/** The head of page 1, and where the music may start under it. */
export function layTitleBlock(
  type: TypeSetter,
  shape: PageShape,
  block: TitleBlock,
  partName: string,
): { words: PageWords[]; bottom: number } {
  const middle = shape.width / 2;
  const inner = shape.width - 2 * shape.side;
  let y = shape.titleBaseline;
  const title = { face: "serif-bold", size: 24, align: "center" } as const;
  const heading: PageItem[] = [];
  for (const line of type.wrap(block.title, inner, title)) {
    heading.push(text(line, middle, y, title));
    y += 27;
  }
  const movement = { face: "serif-italic", size: 13, align: "center" } as const;
  const under: PageItem[] = [];
  for (const line of type.wrap(block.movement ?? "", inner, movement)) {
    under.push(text(line, middle, y - 4, movement));
    y += 17;
  }
  y += 6;
  const right = shape.width - shape.side;
  under.push(text(partName, shape.side, y, { face: "serif-bold", size: 11 }));
  under.push(text(block.composer ?? "", right, y, { face: "serif", size: 11, align: "right" }));
  const agreement = layAgreement(type, shape, block, y + 10);
  return {
    words: [
      { tag: "H1", items: heading },
      { tag: "P", items: under },
      { tag: "P", items: agreement.items },
    ],
    bottom: agreement.bottom,
  };
}

function layAgreement(
  type: TypeSetter,
  { side, width }: PageShape,
  block: TitleBlock,
  top: number,
): { items: PageItem[]; bottom: number } {
  const small = { face: "sans", size: 8 } as const;
  const edition = `Edition № ${block.editionNumber}, ${sayDate(block.frozenOn)}`;
  let y = top + 12;
  const items = [
    rule(side, width - side, top, 0.8),
    text(edition, side, y, { face: "sans-bold", size: 8 }),
    text(shortHash(block.hash), width - side, y, { ...small, align: "right", grey: 0.35 }),
  ];
  const players = block.players.map(
    ({ name, role, agreedOn }) => `${name}, ${role}, agreed ${sayDate(agreedOn)}`,
  );
  for (const line of type.wrap(players.join("  ·  "), width - 2 * side, small)) {
    y += 11;
    items.push(text(line, side, y, small));
  }
  items.push(rule(side, width - side, y + 6, 0.4));
  return { items, bottom: y + 20 };
}

/** The foot of a page: piece, edition, hash and page number. A long title is shortened. */
export function layFooter(
  type: TypeSetter,
  shape: PageShape,
  block: TitleBlock,
  page: number,
  pageCount: number,
): PageWords {
  const y = shape.height - shape.footBaseline;
  const small = { face: "sans", size: 7.5, grey: 0.25 } as const;
  const count = `page ${page} of ${pageCount}`;
  const room = shape.width - 2 * shape.side - type.measure(count, small) - 20;
  const about = (title: string) =>
    `${nameEdition({ ...block, title })} · ${shortHash(block.hash)}`.replace(/ · $/, "");
  let { title } = block;
  while (title.length > 4 && type.measure(about(title), small) > room)
    title = `${title.slice(0, -2).trim()}…`;
  return {
    tag: "ornament",
    items: [
      text(about(title), shape.side, y, small),
      text(count, shape.width - shape.side, y, { ...small, align: "right" }),
    ],
  };
}
