import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { writeXmlElement } from "@/lib/musicxml/write-xml";
import { childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import type { CutSpan } from "@/lib/score/cut-span";
import { quarters, readQuarters } from "@/lib/score/quarters";

const types: Readonly<Record<number, string>> = {
  1: "16th",
  2: "eighth",
  3: "eighth",
  4: "quarter",
  6: "quarter",
  8: "half",
  12: "half",
  16: "whole",
};

/** A note or rest at four divisions to the quarter: `note("F#5", 4)`, `note("r", 16)`; `inside` goes where the schema wants it. */
export function note(
  pitch: string,
  ticks: number,
  {
    voice = 1,
    staff = 1,
    before = "",
    after = "",
    notations = "",
  }: { voice?: number; staff?: number; before?: string; after?: string; notations?: string } = {},
): string {
  const [, chord, step, sign, octave] = /^(\+?)([A-Gr])([#b]?)(\d?)$/.exec(pitch) ?? [];
  const alter = sign === "#" ? "<alter>1</alter>" : sign === "b" ? "<alter>-1</alter>" : "";
  const what =
    step === "r" ? "<rest/>" : `<pitch><step>${step}</step>${alter}<octave>${octave}</octave></pitch>`;
  const dot = ticks === 3 || ticks === 6 || ticks === 12 ? "<dot/>" : "";
  const marks = notations ? `<notations>${notations}</notations>` : "";
  return `<note>${chord ? "<chord/>" : ""}${what}<duration>${ticks}</duration>${before}<voice>${voice}</voice><type>${types[ticks]}</type>${dot}<staff>${staff}</staff>${after}${marks}</note>`;
}

export const backup = (ticks: number): string => `<backup><duration>${ticks}</duration></backup>`;
export const direction = (type: string, sound = ""): string =>
  `<direction><direction-type>${type}</direction-type>${sound}</direction>`;
export const tie = (type: string) => ({
  before: `<tie type="${type}"/>`,
  notations: `<tied type="${type}"/>`,
});

export const opening =
  '<attributes><divisions>4</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef number="1"><sign>G</sign><line>2</line></clef></attributes>';

/** A score of parts given as the contents of their measures, numbered from 1; the first gets the usual attributes. */
export function source(...parts: readonly (readonly string[])[]): MusicXmlTree {
  const list = parts.map(
    (_, index) => `<score-part id="P${index + 1}"><part-name>Part ${index + 1}</part-name></score-part>`,
  );
  const music = parts.map((measures, index) => {
    const bars = measures.map(
      (inside, bar) =>
        `<measure number="${bar + 1}">${bar === 0 && !inside.startsWith("<attributes>") ? opening : ""}${inside}</measure>`,
    );
    return `<part id="P${index + 1}">${bars.join("")}</part>`;
  });
  const text = `<score-partwise version="4.0"><part-list>${list.join("")}</part-list>${music.join("")}</score-partwise>`;
  const tree = readTree(new TextEncoder().encode(text));
  if (!tree.ok) throw new Error(tree.problem.kind);
  return tree.value;
}

/** "2 to 4", "2+1 to 4+3/2": bars by number, with offsets in quarter notes. */
export function cut(text: string): CutSpan {
  const [from, to] = text.split(" to ").map((place) => {
    const [bar, offset] = place.split("+");
    return { barIndex: Number(bar) - 1, offset: readQuarters(offset ?? "0") ?? quarters(0) };
  });
  if (!from || !to) throw new Error(text);
  return { from, to };
}

export const bars = (tree: MusicXmlTree, part = 0): XmlElement[] =>
  childrenNamed(tree.parts[part] ?? tree.root, "measure");

export const labels = (tree: MusicXmlTree): string[] => bars(tree).map((bar) => bar.attributes.number ?? "");

/** The XML of a bar without ids. */
export function xml(bar: XmlElement | undefined): string {
  return bar ? writeXmlElement(bar).replace(/ id="[^"]*"/g, "") : "";
}

/** All elements of a name below an element, in document order. */
export function all(node: XmlElement | undefined, name: string): XmlElement[] {
  if (!node) return [];
  return childElements(node).flatMap((inner) => [
    ...(inner.name === name ? [inner] : []),
    ...all(inner, name),
  ]);
}

/** The notes of a bar: "C5:4", rests as "r:4", with "(" and ")" for ties and the accidental in front. */
export function music(bar: XmlElement | undefined): string {
  return all(bar, "note")
    .map((each) => {
      const [step, alter, octave] = ["step", "alter", "octave"].map((name) =>
        textOf(all(each, name)[0] ?? null),
      );
      const sign = { "1": "#", "-1": "b" }[alter ?? ""] ?? "";
      const pitch = all(each, "rest")[0] ? "r" : `${step}${sign}${octave}`;
      const accidental = textOf(all(each, "accidental")[0] ?? null);
      const ties = all(each, "tie").map(({ attributes }) => attributes.type);
      const shown = accidental ? `[${accidental}]` : "";
      return `${ties.includes("stop") ? ")" : ""}${shown}${pitch}:${textOf(all(each, "duration")[0] ?? null)}${ties.includes("start") ? "(" : ""}`;
    })
    .join(" ");
}
