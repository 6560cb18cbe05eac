import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { type NoteChoice, placeOf } from "@/lib/rewrites/editing/event-place";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** The whole reduction of a score, as it is printed. */
export function termsOf(score: Score): RewriteTerms {
  const part = score.parts.find(({ role }) => role === "reduction");
  const last = score.bars.at(-1);
  if (!part || !last) throw new Error("the score has no reduction");
  return toRewriteTerms({
    ...{ sourceHash: "a".repeat(64), partId: part.id, fromBar: 0, words: "" },
    to: { barIndex: last.index, offset: writeQuarters(last.length) },
    bars: score.bars.map(({ index }) => readBarEvents(score, part, index)),
  });
}

const writePitch = ({ step, alter, octave }: RewritePitch) =>
  `${step.toLowerCase()}${"#".repeat(Math.max(0, alter))}${"b".repeat(Math.max(0, -alter))}${octave}`;

function writeChord({ pitches, tied, tremolo, isRolled, isAccented }: RewriteEvent): string {
  const chord = pitches.map((pitch, index) => `${writePitch(pitch)}${tied.includes(index) ? "-" : ""}`);
  const strokes = tremolo ? `~${tremolo.strokes}${tremolo.other.map(writePitch).join("+")}` : "";
  return `${chord.join("+") || "r"}${strokes}${isAccented ? ">" : ""}${isRolled ? " rolled" : ""}`;
}

/**
 * The events in tokens, "c5+e5 1" for a chord of a quarter, by voice: "|" stands before each further one. "-" is a tie,
 * "~3" a tremolo, ">" an accent.
 */
export function written({ events }: RewriteTerms): string[] {
  return events.map((event, index) => {
    const before = events[index - 1];
    const isNew = before && (before.voice !== event.voice || before.staff !== event.staff);
    return `${isNew ? "| " : ""}${writeChord(event)} ${event.lasts}`;
  });
}

/** The first event that is written so: "c5+e5", one of a length, "e5 2", or a note of it, "c5+e5 e5". */
export function chosen({ events }: RewriteTerms, token: string): NoteChoice {
  const [chord = "", second] = token.split(" ");
  const isLength = second !== undefined && /^\d/.test(second);
  const event = events.find((each) => writeChord(each) === chord && (!isLength || each.lasts === second));
  if (!event) throw new Error(`nothing is written ${token}`);
  const pitch =
    isLength || second === undefined ? null : event.pitches.find((each) => writePitch(each) === second);
  if (pitch === undefined) throw new Error(`${chord} has no ${second}`);
  return { place: placeOf(event), pitch };
}
