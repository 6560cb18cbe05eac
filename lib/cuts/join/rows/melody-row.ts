import type { JoinEdges } from "../join-edges";
import type { JoinRow } from "../join-row";
import { isRepeat } from "../join-signs";
import { jumpBetween } from "../own-jumps";
import { phraseBegins } from "../places";
import { sayMove, sayNumber } from "../say-music";

/** Up to a fourth no one turns the head. Source: common practice. */
const smallLeap = 5;
/** Leaps that fewer than so many of the piece's own bar lines make. Source: ours. */
const [rare, unheardOf] = [0.1, 0.02];

/** Top notes of the bars around a place, for drawing. */
function lineOf(melody: Uint8Array | undefined): (number | null)[] {
  return [...(melody ?? [])].map((midi) => (midi === 0 ? null : midi));
}

function gradeLeap(edges: JoinEdges, step: number, share: number) {
  if (Math.abs(step) <= smallLeap || share >= rare) return "clean";
  // Then the piece leaps so itself.
  if (isRepeat(edges)) return "clean";
  // A new phrase may begin anywhere.
  const isPrepared = edges.toPlace.phraseStart >= phraseBegins;
  if (share >= unheardOf && isPrepared) return "clean";
  return "needs-a-touch";
}

/** How many of the piece's own bar lines leap as far. */
function sayRarely(share: number): string {
  if (share === 0) return "wider than at any bar line of this piece";
  if (share >= 0.5) return "as at most bar lines of this piece";
  return `as only one bar line in ${sayNumber(Math.round(1 / share))} of this piece does`;
}

/** How the top line goes across the join. */
export function assessMelody(edges: JoinEdges): JoinRow | null {
  const { heard, cut, before, after } = edges;
  if (!before || !after) return null;
  const common = { kind: "melody" as const, noteIds: [], bars: [cut.from.barIndex, cut.to.barIndex] };
  const lines = { lineBefore: lineOf(before.window.melody), lineAfter: lineOf(after.window.melody) };
  const [from, to] = [before.pitches.at(-1), after.pitches.at(-1)];
  if (from === undefined || to === undefined) {
    const sentence = "The top line is silent on one side.";
    return { ...common, grade: "clean", sentence, figures: lines };
  }
  const step = to - from;
  const jump = jumpBetween("top", before, after) ?? 0;
  const share = heard.jumps.shareAsLarge("top", jump);
  const grade = gradeLeap(edges, step, share);
  const sentence = `The top line ${sayMove(step)}${Math.abs(step) > smallLeap ? `, ${sayRarely(share)}` : ""}.`;
  return { ...common, grade, sentence, figures: { topStepSemitones: step, shareAsFar: share, ...lines } };
}
