import type { JoinFigure, JoinRow } from "@/lib/cuts/join/join-row";
import { sayClock } from "@/lib/score/say-clock";

/** What one figure of a row is and what it was, in words. */
export interface SaidFigure {
  readonly what: string;
  readonly value: string;
}

type Say = (figure: JoinFigure) => string | null;

const plain: Say = (figure) => (figure === null || typeof figure === "object" ? null : `${figure}`);
const yesNo: Say = (figure) => (figure === true ? "yes" : figure === false ? "no" : null);
const counted =
  (one: string, many = `${one}s`): Say =>
  (figure) =>
    typeof figure === "number" ? `${figure} ${figure === 1 ? one : many}` : null;
const signed =
  (unit: string): Say =>
  (figure) =>
    typeof figure === "number"
      ? `${figure === 0 ? "0" : `${figure > 0 ? "up" : "down"} ${Math.abs(Math.round(10 * figure) / 10)}`} ${unit}`
      : null;
const seconds: Say = (figure) => (typeof figure === "number" ? sayClock(figure) : null);
const rounded: Say = (figure) => (typeof figure === "number" ? `${Math.round(10 * figure) / 10}` : null);
/** Shares of the piece's own places, as a count: a join has no marks out of a hundred. */
const ofHundred: Say = (figure) =>
  typeof figure === "number" ? `${Math.round(100 * figure)} of a hundred` : null;
const levels = ["ppp", "pp", "p", "mp", "mf", "f", "ff", "fff"];
const level: Say = (figure) =>
  typeof figure === "number" ? (levels[Math.min(7, Math.max(0, Math.round(figure)))] ?? null) : "not printed";
const hairpin: Say = (figure) =>
  typeof figure !== "number" ? null : figure === 0 ? "none" : figure > 0 ? "crescendo" : "diminuendo";
const sure: Say = (figure) => (figure === "clear" ? "clear" : figure === null ? null : `${figure}`);
const quality: Say = (figure) => (typeof figure === "string" ? figure.replace(/-/g, " ") : null);
const precedent: Say = (figure) => {
  if (figure === null) return "none";
  if (figure === "same-before") return "the same bars before it";
  if (figure === "same-after") return "the same bars after it";
  return figure === "repeat" ? "the same bars twice" : "the same join";
};

/** Figures that only place the drawing, or repeat in numbers what another says in words. */
const drawnOnly: ReadonlySet<string> = new Set([
  ...["fifthsBefore", "fifthsAfter", "modeBefore", "modeAfter", "rootBefore", "rootAfter"],
  ...["phraseStartsBefore", "phraseStartsAfter", "lineBefore", "lineAfter", "kept", "lost"],
]);

const known: Readonly<Record<string, readonly [what: string, say: Say]>> = {
  keyBefore: ["Key before the cut", plain],
  keyAfter: ["Key at the landing", plain],
  confidenceBefore: ["How sure, before", sure],
  confidenceAfter: ["How sure, after", sure],
  qualityBefore: ["Chord before the cut", quality],
  qualityAfter: ["Chord at the landing", quality],
  degreeBefore: ["Degree before the cut", plain],
  degreeAfter: ["Degree at the landing", plain],
  timesInPiece: ["This succession in the piece", counted("time")],
  bassStepSemitones: ["Step of the bass", signed("semitones")],
  placeBefore: ["Bar of its group of four, where the cut begins", plain],
  placeAfter: ["Bar of its group of four, where it lands", plain],
  cadenceBefore: ["Cadence before the cut", (figure) => (figure === null ? "none" : plain(figure))],
  topStepSemitones: ["Step of the top line", signed("semitones")],
  shareAsFar: ["Bar lines of the piece that leap as far", ofHundred],
  levelBefore: ["Level before the cut", level],
  levelAfter: ["Level at the landing", level],
  hairpinBefore: ["Hairpin before the cut", hairpin],
  hairpinAfter: ["Hairpin at the landing", hairpin],
  hairpinCrosses: ["A hairpin crosses the cut", yesNo],
  fromBeat: ["Beat where the cut begins", plain],
  toBeat: ["Beat where it lands", plain],
  metreBefore: ["Metre before", plain],
  metreAfter: ["Metre after", plain],
  beats: ["Beats in the bar that the join makes", plain],
  held: ["Notes held across either end", counted("note")],
  broken: ["Notes that stop at the cut", counted("note")],
  struckAgain: ["Notes struck again at the landing", counted("note")],
  slursBefore: ["Slurs broken off at the cut", counted("slur")],
  slursAfter: ["Slurs that lead into the landing", counted("slur")],
  upbeatBefore: ["An upbeat stands before the cut", yesNo],
  upbeatAfter: ["An upbeat leads to the landing", yesNo],
  registerJumpSemitones: ["Change of register", signed("semitones")],
  partsJump: ["Change in the number of voices", signed("voices")],
  quartersPerMinuteBefore: ["Quarters a minute before", rounded],
  quartersPerMinuteAfter: ["Quarters a minute after", rounded],
  isMarked: ["A tempo mark stands at the landing", yesNo],
  soloStretchesTaken: ["Stretches of the solo taken", counted("stretch", "stretches")],
  leadInSeconds: ["Left before the entry", seconds],
  leadInBars: ["The same in bars", rounded],
  leastBars: ["Wanted at least, in bars", rounded],
  leastSeconds: ["Wanted at least", seconds],
  restSecondsBefore: ["Rest as written", seconds],
  restSecondsAfter: ["Rest with the cut", seconds],
  precedent: ["Found in the piece", precedent],
  likeness: ["Likeness, 1 is note for note", (figure) => inHundredths(figure)],
  semitones: ["Transposed by", signed("semitones")],
  shareRougher: ["Places of the piece that are rougher", ofHundred],
};

function inHundredths(figure: JoinFigure): string | null {
  return typeof figure === "number" ? `${Math.round(100 * figure) / 100}` : null;
}

/** What a row was judged by, for the reader who opens it. Figures that only draw are left out. */
export function sayFigures({ figures }: Pick<JoinRow, "figures">): SaidFigure[] {
  return Object.entries(figures).flatMap(([name, figure]) => {
    const entry = known[name];
    if (drawnOnly.has(name) || !entry) return [];
    const value = entry[1](figure);
    return value === null ? [] : [{ what: entry[0], value }];
  });
}

/** Whether words stand here for a figure: tests ask, so that none that a row gains is left unsaid. */
export function isFigureKnown(name: string): boolean {
  return name in known || drawnOnly.has(name);
}
