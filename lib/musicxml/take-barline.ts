import type { MeasureState } from "./measure-state";
import type { BarDraft } from "./score-draft";
import { child, childElements, textOf, type XmlElement } from "./xml-tree";

/** Larger than any number of rounds or endings in print. */
const mostRounds = 100;

/** Takes in a `barline`: repeats, endings, the signs on it. Parts repeat what the first says. */
export function takeBarline(barline: XmlElement, state: MeasureState): void {
  const location = barline.attributes.location ?? "right";
  if (child(barline, "fermata")) {
    state.tell(
      "fermata-on-bar-line",
      "A fermata stands over the bar line; it holds no note and adds no time.",
    );
  }
  if (location === "middle") {
    if (child(barline, "repeat") || child(barline, "ending")) {
      state.tell(
        "repeat-inside-bar",
        "A repeat sign or ending stands inside a bar; it was left out of the order of playing.",
      );
    }
    return;
  }
  if (
    /^(light-light|light-heavy|heavy-heavy|heavy-light)$/.test(textOf(child(barline, "bar-style")).trim())
  ) {
    const ending = location === "left" ? previousBar(state) : state.bar;
    if (ending) ending.endsWithDoubleLine = true;
  }
  for (const element of childElements(barline)) {
    if (element.name === "repeat") takeRepeat(element, location, state);
    else if (element.name === "ending") takeEnding(element, location, state);
    else if (element.name === "segno" || element.name === "coda") takeSign(element, location, state);
  }
  takeNamedSigns(barline, state);
}

function previousBar(state: MeasureState): BarDraft | null {
  return state.barIndex === 0 ? null : state.score.barAt(state.barIndex - 1);
}

function nextBar(state: MeasureState): BarDraft {
  return state.score.barAt(state.barIndex + 1);
}

/** A forward repeat counts for the bar after the line, a backward one for the bar before it. */
function takeRepeat({ attributes }: XmlElement, location: string, state: MeasureState): void {
  if (attributes.direction === "forward") {
    (location === "left" ? state.bar : nextBar(state)).repeats.startsRepeat = true;
    return;
  }
  const bar = location === "left" ? previousBar(state) : state.bar;
  if (attributes.direction !== "backward" || bar === null) {
    state.tell("repeat-unreadable", "A repeat sign has nothing to repeat; it was left out.");
    return;
  }
  bar.repeats.endsRepeatAfter = Math.max(
    bar.repeats.endsRepeatAfter ?? 0,
    readTimes(attributes.times, state),
  );
}

function readTimes(text: string | undefined, state: MeasureState): number {
  const times = Number(text ?? 2);
  if (Number.isInteger(times) && times >= 1 && times <= mostRounds) return times;
  state.tell(
    "repeat-count-impossible",
    "A repeat is to be played an impossible number of times; twice was taken.",
  );
  return 2;
}

function takeEnding(element: XmlElement, location: string, state: MeasureState): void {
  const numbers = readEndingNumbers(element);
  if (numbers.length === 0) {
    state.tell("ending-without-number", "An ending has no number; it was taken as the first.");
    numbers.push(1);
  }
  const { type } = element.attributes;
  const isLeft = location === "left";
  if (type === "start") (isLeft ? state.bar : nextBar(state)).repeats.startsEnding ??= numbers;
  else if (type === "stop" || type === "discontinue") {
    const bar = isLeft ? previousBar(state) : state.bar;
    if (bar) bar.repeats.stopsEnding ??= numbers;
  }
}

/** "1", "1, 2", "1-3"; when the attribute is blank, the numbers in the printed text. */
function readEndingNumbers(element: XmlElement): number[] {
  const fromAttribute = numbersIn(element.attributes.number ?? "");
  return fromAttribute.length > 0 ? fromAttribute : numbersIn(textOf(element));
}

function numbersIn(text: string): number[] {
  const numbers = new Set<number>();
  for (const [, first = "", last] of text.slice(0, 200).matchAll(/(\d{1,3})(?:\s*[-–]\s*(\d{1,3}))?/g)) {
    const end = Math.min(Number(last ?? first), mostRounds);
    for (let number = Number(first); number <= end; number += 1) if (number >= 1) numbers.add(number);
  }
  return [...numbers].sort((a, b) => a - b);
}

function takeSign({ name }: XmlElement, location: string, state: MeasureState): void {
  const kind = name === "segno" ? "segno" : "coda";
  const bar = location === "left" ? state.bar : nextBar(state);
  if (bar.jumps.every((jump) => jump.kind !== kind)) {
    bar.jumps.push({ kind, name: kind, offset: state.at, source: "sign" });
  }
}

/** The attributes by which a bar line names its signs for playback. */
function takeNamedSigns({ attributes }: XmlElement, state: MeasureState): void {
  for (const kind of ["segno", "coda"] as const) {
    const name = attributes[kind]?.trim().slice(0, 80);
    if (name) state.bar.jumps.push({ kind, name, offset: state.at, source: "sound" });
  }
}
