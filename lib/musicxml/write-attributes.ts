import type { Metre } from "@/lib/score/bar";
import type { ClefChange, KeyChange, TranspositionChange } from "@/lib/score/part";
import { element, type XmlElement } from "./xml-tree";

const text = (name: string, value: string | number): XmlElement => element(name, {}, `${value}`);
const numbered = (staff: number | null): Record<string, string> =>
  staff === null ? {} : { number: `${staff}` };

/** What an `attributes` element says at one place. */
export interface AttributesContent {
  readonly divisions: number | null;
  readonly keys: readonly KeyChange[];
  readonly metre: Metre | null;
  readonly staffCount: number | null;
  readonly clefs: readonly ClefChange[];
  readonly transpositions: readonly TranspositionChange[];
}

/** Null when there is nothing to say. Children in the order of the schema. */
export function writeAttributes(content: AttributesContent): XmlElement | null {
  const children = [
    ...(content.divisions === null ? [] : [text("divisions", content.divisions)]),
    ...content.keys.map(writeKey),
    ...(content.metre === null ? [] : [writeMetre(content.metre)]),
    ...(content.staffCount === null ? [] : [text("staves", content.staffCount)]),
    ...content.clefs.map(writeClef),
    ...content.transpositions.map(writeTransposition),
  ];
  return children.length === 0 ? null : element("attributes", {}, ...children);
}

function writeKey({ staff, fifths, mode }: KeyChange): XmlElement {
  // The model knows of a non-traditional key only that it is one: a natural stands for its signs.
  if (fifths === null) return element("key", numbered(staff), text("key-step", "C"), text("key-alter", 0));
  return element(
    "key",
    numbered(staff),
    text("fifths", fifths),
    ...(mode === null ? [] : [text("mode", mode)]),
  );
}

function writeMetre({ groups, symbol }: Metre): XmlElement {
  if (groups.length === 0) return element("time", {}, element("senza-misura"));
  const counts = groups.flatMap(({ beats, beatType }) => [
    text("beats", beats.join("+")),
    text("beat-type", beatType),
  ]);
  return element("time", symbol === null ? {} : { symbol }, ...counts);
}

function writeClef({ staff, sign, line, octaveChange }: ClefChange): XmlElement {
  const place = line === null ? [] : [text("line", line)];
  const octave = octaveChange === 0 ? [] : [text("clef-octave-change", octaveChange)];
  return element("clef", numbered(staff), text("sign", sign), ...place, ...octave);
}

function writeTransposition({ transposition }: TranspositionChange): XmlElement {
  const { diatonic, chromatic, octaveChange } = transposition;
  const octave = octaveChange === 0 ? [] : [text("octave-change", octaveChange)];
  return element("transpose", {}, text("diatonic", diatonic), text("chromatic", chromatic), ...octave);
}
