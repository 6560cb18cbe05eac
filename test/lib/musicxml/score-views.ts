import type { Direction } from "@/lib/score/direction";
import type { Note, Rest } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import { type Quarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** Short texts that show one side of a score, so that a table of expectations can be read and worked out by hand. */

const signs: Readonly<Record<string, string>> = { "0": "", "1": "#", "-1": "b", "2": "##", "-2": "bb" };

export function pitchText(pitch: Pitch | null): string {
  if (pitch === null) return "x";
  return `${pitch.step}${signs[`${pitch.alter}`] ?? `(${pitch.alter})`}${pitch.octave}`;
}

export function partOf(score: Score, index = 0): Part {
  const part = score.parts[index];
  if (!part) throw new RangeError(`No part ${index}`);
  return part;
}

/** "C4 D#4 x": `x` is an unpitched note. */
export const written = (score: Score, part = 0): string =>
  partOf(score, part)
    .notes.map((note) => pitchText(note.written))
    .join(" ");

export const sounding = (score: Score, part = 0): string =>
  partOf(score, part)
    .notes.map((note) => pitchText(note.sounding))
    .join(" ");

/** Lengths of the notes, in quarters. */
export const noteLengths = (score: Score): string => partOf(score).notes.map(lengthText).join(" ");
export const restLengths = (score: Score): string => partOf(score).rests.map(lengthText).join(" ");

const lengthText = ({ duration }: Note | Rest): string => writeQuarters(duration);

/** Offset of each note in its bar. */
export const offsets = (score: Score): string =>
  partOf(score)
    .notes.map((note) => writeQuarters(offsetOf(score, note)))
    .join(" ");

function offsetOf(
  score: Score,
  { onset, barIndex }: { readonly onset: Quarters; readonly barIndex: number },
): Quarters {
  const bar = score.bars[barIndex];
  if (!bar) throw new RangeError(`No bar ${barIndex}`);
  return subtractQuarters(onset, bar.start);
}

export const barLengths = (score: Score): string =>
  score.bars.map(({ length }) => writeQuarters(length)).join(" ");
export const labels = (score: Score): string => score.bars.map(({ label }) => label).join(" ");
export const fifths = (score: Score): string => score.bars.map(({ key }) => `${key.fifths}`).join(" ");
export const modes = (score: Score): string => score.bars.map(({ key }) => `${key.mode}`).join(" ");

/** "3+2/8 3/4": groups beside each other, bars by " | "; with its symbol after a colon. */
export const metres = (score: Score): string =>
  score.bars
    .map(({ metre: { groups, symbol } }) => {
      const text = groups.map(({ beats, beatType }) => `${beats.join("+")}/${beatType}`).join(" ") || "free";
      return symbol === null ? text : `${text}:${symbol}`;
    })
    .join(" | ");

/** "p" pickup, "i" irregular, "." neither. */
export const shapes = (score: Score): string =>
  score.bars.map(({ isPickup, isIrregular }) => (isPickup ? "p" : isIrregular ? "i" : ".")).join("");

/** "|:" starts, ":|x5" ends after five times, "[1,2" an ending starts, "1]" it stops. */
export const repeats = (score: Score): string =>
  score.bars
    .map(({ repeats: { startsRepeat, endsRepeatAfter, startsEnding, stopsEnding } }) =>
      [
        startsRepeat ? "|:" : "",
        startsEnding ? `[${startsEnding.join(",")}` : "",
        ".",
        stopsEnding ? `${stopsEnding.join(",")}]` : "",
        endsRepeatAfter === null ? "" : `:|x${endsRepeatAfter}`,
      ].join(""),
    )
    .join(" ");

/** "G2", "F4-1" with an octave change, by the bar's place. */
export const clefs = (score: Score): string =>
  partOf(score)
    .clefs.map(({ sign, line, octaveChange, barIndex }) => {
      const octave = octaveChange === 0 ? "" : octaveChange > 0 ? `+${octaveChange}` : `${octaveChange}`;
      return `${barIndex}:${sign}${line ?? ""}${octave}`;
    })
    .join(" ");

export const staves = (score: Score): string =>
  partOf(score)
    .notes.map(({ staff }) => staff)
    .join("");
export const voices = (score: Score): string =>
  partOf(score)
    .notes.map(({ voice }) => voice)
    .join("");

/** "o" a plain note, "g" grace, "+" chord member, "G" a grace note in a chord. */
export const kinds = (score: Score): string =>
  partOf(score)
    .notes.map(({ isGrace, isChordMember }) =>
      isGrace ? (isChordMember ? "G" : "g") : isChordMember ? "+" : "o",
    )
    .join("");

/** "(" starts, ")" stops, "-" both, "." none. */
export const ties = (score: Score): string =>
  partOf(score)
    .notes.map(({ tieStart, tieStop }) => (tieStart && tieStop ? "-" : tieStart ? "(" : tieStop ? ")" : "."))
    .join("");

/** "(1" and ")1" by number. */
export const slurs = (score: Score): string =>
  partOf(score)
    .notes.map(
      ({ slurs: ends }) =>
        ends.map(({ type, number }) => `${type === "start" ? "(" : ")"}${number}`).join("") || ".",
    )
    .join(" ");

export const lyrics = (score: Score, part = 0): string =>
  partOf(score, part)
    .notes.map(({ lyric }) => lyric ?? "–")
    .join(" ");

export const articulations = (score: Score): string =>
  partOf(score)
    .notes.map(({ articulations: marks }) => marks.join("+") || ".")
    .join(" ");

export const ornaments = (score: Score): string =>
  partOf(score)
    .notes.map(({ ornaments: marks, tremolo }) => {
      const both = [...marks, ...(tremolo === null ? [] : [`tremolo-${tremolo.type}-${tremolo.marks}`])];
      return both.join("+") || ".";
    })
    .join(" ");

/** Directions of one kind: "0:1/2 p" is bar index 0, offset 1/2. */
export const directions = (
  score: Score,
  kind: Direction["kind"],
  show: (direction: Direction) => string,
): string =>
  partOf(score)
    .directions.filter((direction) => direction.kind === kind)
    .map(
      (direction) => `${direction.barIndex}:${writeQuarters(offsetOf(score, direction))} ${show(direction)}`,
    )
    .join(", ");

export const dynamics = (score: Score): string =>
  directions(score, "dynamic", (direction) => (direction.kind === "dynamic" ? direction.mark : ""));

export const words = (score: Score): string =>
  directions(score, "words", (direction) => (direction.kind === "words" ? direction.text : ""));

export const wedges = (score: Score): string =>
  directions(score, "wedge", (direction) => (direction.kind === "wedge" ? direction.type : ""));

export const octaveShifts = (score: Score): string =>
  directions(score, "octave-shift", (shift) =>
    shift.kind === "octave-shift" ? `${shift.type}${shift.size}` : "",
  );

export const tempi = (score: Score): string =>
  score.tempoMarks
    .map(({ words: text, quartersPerMinute, source }) => `${text ?? ""}${quartersPerMinute ?? "?"} ${source}`)
    .join(", ");

export const partNames = (score: Score): string => score.parts.map(({ name }) => name).join(" · ");
export const counts = (score: Score): string =>
  score.parts.map(({ notes, rests }) => `${notes.length}+${rests.length}`).join(" ");
