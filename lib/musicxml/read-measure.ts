import { laterOf, type Quarters } from "@/lib/score/quarters";
import type { MeasureState } from "./measure-state";
import { sayDivisions } from "./part-state";
import { takeAttributes } from "./take-attributes";
import { takeBarline } from "./take-barline";
import { takeDirection, takeSound } from "./take-direction";
import { takeNote } from "./take-note";
import { child, textOf, type XmlElement } from "./xml-tree";

/** Reads one measure of one part into the drafts of its part and its bar. */
export function readMeasure(measure: XmlElement, state: MeasureState): void {
  for (const node of measure.children) if (node.kind === "element") takeElement(node, state, measure);
  const { bar, part } = state;
  bar.reachedInParts[part.partIndex] = state.reached;
  bar.reached = laterOf(bar.reached, state.reached);
}

function takeElement(element: XmlElement, state: MeasureState, measure: XmlElement): void {
  switch (element.name) {
    case "note":
      needDivisions(state, measure);
      takeNote(element, state);
      break;
    case "backup":
      needDivisions(state, measure);
      move(element, state, (by) => state.goBack(by));
      break;
    case "forward":
      needDivisions(state, measure);
      state.staffOf(textOf(child(element, "staff")).trim() || null);
      move(element, state, (by) => state.advance(by));
      break;
    case "attributes":
      takeAttributes(element, state);
      break;
    case "direction":
      takeDirection(element, state);
      break;
    case "sound":
      takeSound(element, state);
      break;
    case "barline":
      takeBarline(element, state);
  }
}

function move(element: XmlElement, state: MeasureState, go: (by: Quarters) => void): void {
  const by = state.part.lengthOf(textOf(child(element, "duration")));
  if (by !== null && by.num >= 0) go(by);
  else
    state.tell(
      "duration-unreadable",
      `A ${element.name}'s duration is missing or impossible; it was passed over.`,
    );
}

function needDivisions(state: MeasureState, measure: XmlElement): void {
  if (state.part.hasDivisions) return;
  const assumed = state.part.assumeDivisions(measure);
  const sentence = `The part does not say how durations are counted; ${sayDivisions(assumed)} to a quarter note was taken.`;
  state.tell("divisions-missing", sentence);
}
