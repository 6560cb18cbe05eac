import type { NoticeBook } from "./notice-book";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "./xml-tree";

/** What the head of a score says of one part. */
export interface PartIdentity {
  readonly id: string;
  /** Never empty. */
  readonly name: string;
  readonly abbreviation: string | null;
  readonly soundId: string | null;
  readonly midiProgram: number | null;
}

/**
 * Finds the `score-part` of each `part`. Parts are asked for in document order. A part without an id takes the first
 * `score-part` that no part has claimed; a part that is not listed, or that repeats an id, gets an id of its own.
 */
export class PartList {
  private readonly listed = new Map<string, XmlElement>();
  private readonly claimed = new Set<string>();
  private count = 0;

  constructor(
    root: XmlElement,
    private readonly notices: NoticeBook,
  ) {
    const list = child(root, "part-list");
    for (const scorePart of list === null ? [] : childrenNamed(list, "score-part")) {
      const id = scorePart.attributes.id ?? "";
      if (id === "") continue;
      if (this.listed.has(id)) this.tellDuplicate(id);
      else this.listed.set(id, scorePart);
    }
  }

  identify(part: XmlElement): PartIdentity {
    this.count += 1;
    const id = this.claimId((part.attributes.id ?? "").slice(0, longestName));
    const scorePart = this.listed.get(id);
    if (scorePart) return readScorePart(id, scorePart, this.count);
    const name = `Part ${this.count}`;
    this.notices.add(
      "part-not-listed",
      "The part list does not name this part; it was read all the same.",
      name,
    );
    return { id, name, abbreviation: null, soundId: null, midiProgram: null };
  }

  /** To be called after the last part. */
  tellMissing(): void {
    for (const [id, scorePart] of this.listed) {
      if (this.claimed.has(id)) continue;
      const { name } = readScorePart(id, scorePart, 0);
      this.notices.add("part-missing", "The part list names this part, but the file does not hold it.", name);
    }
  }

  private claimId(own: string): string {
    const wanted = own !== "" ? own : this.firstUnclaimed();
    let id = wanted;
    for (let copy = 2; this.claimed.has(id); copy += 1) id = `${wanted}_${copy}`;
    this.claimed.add(id);
    if (own === "")
      this.notices.add("part-without-id", "A part carries no id; its place in the file decided.");
    else if (id !== own) this.tellDuplicate(own);
    return id;
  }

  private firstUnclaimed(): string {
    for (const id of this.listed.keys()) if (!this.claimed.has(id)) return id;
    return `P${this.count}`;
  }

  private tellDuplicate(id: string): void {
    this.notices.add(
      "part-id-repeated",
      `Several parts share the id “${id.slice(0, 40)}”; each was kept apart.`,
    );
  }
}

function readScorePart(id: string, scorePart: XmlElement, number: number): PartIdentity {
  const display = displayText(child(scorePart, "part-name-display"));
  const names = [
    textOf(child(scorePart, "part-name")),
    display,
    instrumentText(scorePart, "instrument-name"),
  ];
  const abbreviation = oneLine(textOf(child(scorePart, "part-abbreviation")));
  const midi = child(scorePart, "midi-instrument");
  const program = Number(textOf(midi && child(midi, "midi-program")));
  return {
    id,
    name: names.map(oneLine).find((text) => text !== "") ?? `Part ${number}`,
    abbreviation: abbreviation === "" ? null : abbreviation,
    soundId: instrumentText(scorePart, "instrument-sound").trim().slice(0, longestName) || null,
    midiProgram: Number.isInteger(program) && program >= 1 && program <= 128 ? program : null,
  };
}

/** Names are broken into lines for the margin of a page. */
function oneLine(text: string): string {
  return text.slice(0, longestName).replace(/\s+/g, " ").trim();
}

/** Characters of a part's name: more than any that is printed. */
const longestName = 200;

function displayText(display: XmlElement | null): string {
  const texts = display === null ? [] : childElements(display).filter(({ name }) => name === "display-text");
  return texts.map(textOf).join("");
}

function instrumentText(scorePart: XmlElement, name: string): string {
  const instrument = child(scorePart, "score-instrument");
  return textOf(instrument && child(instrument, name));
}
