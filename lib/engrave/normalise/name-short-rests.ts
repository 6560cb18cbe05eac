import { retypeNote, splitInValues } from "@/lib/musicxml/cut/retype-note";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { compareQuarters, type Quarters, quarters, subtractQuarters } from "@/lib/score/quarters";
import { MeasureClock } from "./measure-clock";

/**
 * Draws rests of a pickup by their length: as rests of a whole bar, which show none, the engraver (verovio 6.3.0) squeezes them
 * between metre and bar line. A rest that is as long as the metre stays, and one whose length no single rest has.
 */
export function nameShortRests(tree: MusicXmlTree): void {
  for (const part of tree.parts) {
    const clock = new MeasureClock();
    let metre: Quarters | null = null;
    for (const [index, measure] of childrenNamed(part, "measure").entries()) {
      const mayBeShort = index === 0 || measure.attributes.implicit === "yes";
      clock.beginMeasure();
      for (const node of childElements(measure)) {
        const from = clock.at;
        clock.pass(node);
        if (node.name === "attributes") metre = readMetre(node) ?? metre;
        if (mayBeShort && metre) nameRest(node, subtractQuarters(clock.at, from), metre);
      }
    }
  }
}

function nameRest(node: XmlElement, length: Quarters, metre: Quarters): void {
  const rest = node.name === "note" ? child(node, "rest") : null;
  if (rest?.attributes.measure !== "yes" || length.num <= 0 || compareQuarters(length, metre) >= 0) return;
  if (splitInValues(length)?.length !== 1) return;
  delete rest.attributes.measure;
  retypeNote(node, length);
}

/** MusicXML 4.0, `time`: "3+2" beats are added up; null for none and for a metre that is given as a sum of several. */
function readMetre(attributes: XmlElement): Quarters | null {
  const time = childrenNamed(attributes, "time").at(-1);
  const [beats, type] = [time && child(time, "beats"), time && child(time, "beat-type")];
  const count = textOf(beats ?? null)
    .split("+")
    .reduce((sum, each) => sum + Number(each), 0);
  const unit = Number(textOf(type ?? null));
  const isKnown = [count, unit].every((each) => Number.isSafeInteger(each) && each > 0);
  return isKnown ? quarters(4 * count, unit) : null;
}
