import type { Transposition } from "@/lib/score/transposition";
import type { MeasureState } from "./measure-state";
import { takeDirective } from "./take-direction";
import { hasUsualBeatTypes, isSameMetre, readTime } from "./time-element";
import { child, childElements, textOf, type XmlElement } from "./xml-tree";

/** Takes in an `attributes` element: divisions, key, time, staves, clef, transposition, measure style. */
export function takeAttributes(attributes: XmlElement, state: MeasureState): void {
  for (const attribute of childElements(attributes)) {
    switch (attribute.name) {
      case "divisions":
        takeDivisions(attribute, state);
        break;
      case "key":
        takeKey(attribute, state);
        break;
      case "time":
        takeTime(attribute, state);
        break;
      case "staves":
        takeStaves(attribute, state);
        break;
      case "clef":
        takeClef(attribute, state);
        break;
      case "transpose":
        takeTranspose(attribute, state);
        break;
      case "measure-style":
        takeMeasureStyle(attribute, state);
        break;
      case "directive":
        takeDirective(attribute, state);
    }
  }
}

function takeDivisions(element: XmlElement, state: MeasureState): void {
  if (state.part.setDivisions(textOf(element))) return;
  state.tell(
    "divisions-impossible",
    "The divisions of a quarter note are no positive number; they were passed over.",
  );
}

function takeKey(element: XmlElement, state: MeasureState): void {
  const fifths = Number(textOf(child(element, "fifths")).trim() || Number.NaN);
  const isTraditional = Number.isInteger(fifths) && Math.abs(fifths) <= 14;
  if (!isTraditional && !child(element, "key-step")) {
    state.tell("key-unreadable", "A key signature cannot be read; it was kept as one of an unknown key.");
  }
  const mode = isTraditional ? textOf(child(element, "mode")).trim().slice(0, 40) : "";
  state.draft.keys.push({
    onset: state.at,
    barIndex: state.barIndex,
    staff: state.staffOf(element.attributes.number ?? null),
    fifths: isTraditional ? fifths : null,
    mode: mode === "" ? null : mode,
  });
}

/** The metre is the bar's: a change inside it counts from the next bar. */
function takeTime(element: XmlElement, state: MeasureState): void {
  const metre = readTime(element);
  if (metre === null) {
    state.tell("metre-unreadable", "A time signature cannot be read; the one before it stays.");
    return;
  }
  if (!hasUsualBeatTypes(metre)) {
    state.tell(
      "metre-unusual",
      "A time signature counts in a note value that does not exist; it was taken as it stands.",
    );
  }
  const isInside = state.at.num > 0;
  if (isInside)
    state.tell("metre-inside-bar", "A time signature stands inside a bar; it counts from the next bar.");
  const bar = isInside ? state.score.barAt(state.barIndex + 1) : state.bar;
  if (bar.metre !== null && !isSameMetre(bar.metre, metre) && (element.attributes.number ?? "1") === "1") {
    state.tell(
      "metres-differ",
      "This part has another time signature than the parts above it; theirs was taken.",
    );
  }
  bar.metre ??= metre;
}

function takeStaves(element: XmlElement, state: MeasureState): void {
  state.staffOf(textOf(element));
}

function takeClef(element: XmlElement, state: MeasureState): void {
  const line = Number(textOf(child(element, "line")).trim() || Number.NaN);
  const octaveChange = Number(textOf(child(element, "clef-octave-change")));
  state.draft.clefs.push({
    onset: state.at,
    barIndex: state.barIndex,
    staff: state.staffOf(element.attributes.number ?? null) ?? 1,
    sign: textOf(child(element, "sign")).trim().slice(0, 20) || "G",
    line: Number.isInteger(line) ? line : null,
    octaveChange: Number.isInteger(octaveChange) ? octaveChange : 0,
  });
}

/** More than any instrument transposes: two octaves and what lies between. */
const mostSemitones = 48;

function takeTranspose(element: XmlElement, state: MeasureState): void {
  const transposition = readTranspose(element);
  if (transposition === null) {
    state.tell("transposition-unreadable", "A transposition cannot be read; the one before it stays.");
    return;
  }
  const staff = state.staffOf(element.attributes.number ?? null);
  state.part.setTransposition(transposition, staff);
  if (staff !== null && staff > 1) {
    state.tell(
      "transposition-per-staff",
      "The staves of this part transpose differently; each was read at its own sounding pitch.",
    );
    return;
  }
  state.draft.transpositions.push({ onset: state.at, barIndex: state.barIndex, transposition });
}

/** Scale steps of 0 to 11 semitones where the file leaves `diatonic` out. Source: common practice (the usual spelling). */
const usualSteps = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];

function readTranspose(element: XmlElement): Transposition | null {
  const read = (name: string) => Number(textOf(child(element, name)).trim() || 0);
  const chromatic = read("chromatic");
  const octaveChange = read("octave-change");
  const isSane = Math.abs(chromatic) <= mostSemitones && Math.abs(octaveChange) <= 4;
  if (!Number.isInteger(octaveChange) || !isSane) return null;
  const whole = Math.trunc(Math.abs(chromatic));
  const usual = Math.sign(chromatic) * ((usualSteps[whole % 12] ?? 0) + 7 * Math.floor(whole / 12));
  const diatonic = child(element, "diatonic") ? read("diatonic") : usual;
  if (!Number.isInteger(diatonic) || Math.abs(diatonic) > mostSemitones) return null;
  return { diatonic: diatonic + 0, chromatic: chromatic + 0, octaveChange: octaveChange + 0 };
}

/** Bars repeated by a sign. */
function takeMeasureStyle(element: XmlElement, state: MeasureState): void {
  const staff = state.staffOf(element.attributes.number ?? null);
  for (const style of childElements(element)) {
    if (style.name === "measure-repeat") takeMeasureRepeat(style, state, staff);
    else if ((style.name === "slash" || style.name === "beat-repeat") && style.attributes.type === "start") {
      state.tell(
        "slash-notation",
        "Slashes start here: what is played is left to the player; the written notes were read.",
      );
    }
  }
}

/** Of bars repeated by a sign, in one part. */
const mostRegions = 1_000;

function takeMeasureRepeat(element: XmlElement, state: MeasureState, staff: number | null): void {
  const { repeatedBars } = state.draft;
  const open = repeatedBars.findIndex((found) => found.staff === staff && found.endBar === null);
  const region = repeatedBars[open];
  if (region?.firstBar === state.barIndex) repeatedBars.splice(open, 1);
  else if (region) region.endBar = state.barIndex;
  if (element.attributes.type !== "start" || repeatedBars.length >= mostRegions) return;
  const pattern = Number(textOf(element).trim() || 1);
  const isSane = Number.isInteger(pattern) && pattern >= 1 && pattern <= 16 && pattern <= state.barIndex;
  if (!isSane) {
    state.tell(
      "measure-repeat-unreadable",
      "A sign repeats bars that are not there; the written notes were read.",
    );
    return;
  }
  repeatedBars.push({ firstBar: state.barIndex, endBar: null, pattern, staff });
}
