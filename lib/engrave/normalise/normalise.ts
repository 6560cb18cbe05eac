import { partEntryOf } from "@/lib/musicxml/cut/part-entry-of";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import {
  child,
  childElements,
  childrenNamed,
  element,
  textOf,
  type XmlElement,
} from "@/lib/musicxml/xml-tree";
import { tellMarkStyle } from "../mark-style";
import { abbreviatePart } from "./abbreviate-part";
import { condenseRests } from "./condense-rests";
import { dropRepeatedTempi } from "./drop-repeated-tempi";
import { dropVoidClefs } from "./drop-void-clefs";
import { keepSpaces } from "./keep-spaces";
import { moveLateDirections } from "./move-late-directions";
import { nameShortRests } from "./name-short-rests";
import { showSilentBars } from "./show-silent-bars";

/** What of a score the engraver is given. */
export interface NormaliseOptions {
  /** Names before the first system: in full, or as before the others; or none at all. */
  readonly firstLabels: "full" | "short" | "none";
  /** Staff size of a part in percent, by part id. */
  readonly staffSizes?: Readonly<Record<string, number>>;
  /** Bars at which a new system should begin when there is a choice, by bar index. */
  readonly wantedBreaks?: readonly number[];
  /** Rows of bars in which the one part rests become one bar. */
  readonly condensesRests?: boolean;
}

/** The longest text that is engraved at one place: more than any heading, far less than would hurt. */
const longestText = 200;
/** Characters of a line over a staff: about a third of a page, since the engraver makes one bar as wide as its words. */
const longestLine = 40;

/**
 * Takes out of a score what the engraver (verovio 6.3.0) gets wrong or has no use for. The tree is changed in place.
 *
 * - `non-controlling` measures abort it; a `multiple-rest` in one part makes it lose the notes of the others;
 * - families and sizes of words are told by their colour (see `tellMarkStyle`);
 * - paper sizes, credits, file data and line breaks of the source do not hold for our pages;
 * - a tempo is printed once, over the highest staff that has it;
 * - a silent bar shows its rest;
 * - of two clefs between the same two notes the second holds;
 * - rests of a pickup are drawn by their length;
 * - spaces between words in different styles, and before the note of a tempo, are no blanks of XML;
 * - what is said behind the last note of a bar is said at the beginning of the next;
 * - parts get the short names that it prints before every system.
 */
export function normaliseForEngraving(tree: MusicXmlTree, options: NormaliseOptions): void {
  const { root } = tree;
  root.children = root.children.filter(
    (node) => node.kind === "element" && (node.name === "part-list" || node.name === "part"),
  );
  dropRepeatedTempi(tree);
  nameShortRests(tree);
  moveLateDirections(tree);
  dropVoidClefs(tree);
  showSilentBars(tree);
  for (const part of tree.parts) {
    nameShortly(tree, part, options.firstLabels);
    const size = options.staffSizes?.[part.attributes.id ?? ""];
    if (size !== undefined) setStaffSize(part, size);
    for (const [index, measure] of childrenNamed(part, "measure").entries()) {
      delete measure.attributes["non-controlling"];
      dropLayout(measure);
      const isWanted = options.wantedBreaks?.includes(index);
      if (isWanted) measure.children.unshift(element("print", { "new-system": "yes" }));
    }
  }
  shorten(root);
  keepSpaces(tree);
  const [only] = tree.parts;
  if (options.condensesRests && only && tree.parts.length === 1) condenseRests(only);
}

function nameShortly(
  tree: MusicXmlTree,
  part: XmlElement,
  firstLabels: NormaliseOptions["firstLabels"],
): void {
  const entry = partEntryOf(tree, part);
  if (!entry) return;
  const name = textOf(child(entry, "part-name")).trim();
  const short = abbreviatePart(name, textOf(child(entry, "part-abbreviation")));
  const kept = childElements(entry).filter(
    (node) => !/^(part-name|part-abbreviation|part-name-display|part-abbreviation-display)$/.test(node.name),
  );
  const labels = { full: [name, short], short: [short, short], none: ["", ""] }[firstLabels];
  const [first = "", others = ""] = labels;
  entry.children = [element("part-name", {}, first), element("part-abbreviation", {}, others), ...kept];
}

function dropLayout(measure: XmlElement): void {
  measure.children = measure.children.filter((node) => node.kind === "element" && node.name !== "print");
  for (const attributes of childrenNamed(measure, "attributes")) {
    attributes.children = attributes.children.filter(
      (node) => node.kind !== "element" || node.name !== "measure-style" || !child(node, "multiple-rest"),
    );
  }
}

/** MusicXML 4.0, `staff-size`: percent of the score's own size. */
function setStaffSize(part: XmlElement, percent: number): void {
  const first = childrenNamed(part, "measure")[0];
  const attributes = first && child(first, "attributes");
  if (!attributes) return;
  const details = element("staff-details", {}, element("staff-size", {}, `${percent}`));
  const after = attributes.children.findLastIndex(
    (node) =>
      node.kind === "element" &&
      !/^(staff-details|transpose|for-part|directive|measure-style)$/.test(node.name),
  );
  attributes.children.splice(after + 1, 0, details);
}

/** Long texts become shorter and stand in lines; the players' own words tell how they are set. */
function shorten(node: XmlElement): void {
  if (node.name === "words") tellMarkStyle(node);
  for (const inner of node.children) {
    if (inner.kind === "element") shorten(inner);
    else if (inner.kind === "text" && inner.text.length > longestText)
      inner.text = `${inner.text.slice(0, longestText)}…`;
    if (inner.kind === "text" && node.name === "words") inner.text = breakLines(inner.text);
  }
}

/** Lines that the text has stay; some files write a break as "\\n". */
function breakLines(text: string): string {
  if (text.length <= longestLine && !text.includes("\\n")) return text;
  const lines = text.split(/\n|\\n/).flatMap((line) => {
    const broken: string[] = [];
    for (const word of line.trim().split(/\s+/).flatMap(breakWord)) {
      const last = broken.at(-1);
      if (last === undefined || last.length + word.length >= longestLine) broken.push(word);
      else broken[broken.length - 1] = `${last} ${word}`;
    }
    return broken;
  });
  return lines.join("\n");
}

/** A word that is longer than a line, which no word is. */
const breakWord = (word: string): string[] =>
  word.length <= longestLine ? [word] : (word.match(new RegExp(`.{1,${longestLine}}`, "gu")) ?? []);
