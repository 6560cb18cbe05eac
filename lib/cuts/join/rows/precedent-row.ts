import { namePosition } from "@/lib/cuts/name-position";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import { asGoodAsEqual, type Precedent } from "../find-precedent";
import type { JoinEdges } from "../join-edges";
import type { JoinRow } from "../join-row";
import { precedentOf } from "../join-signs";
import type { Heard } from "../listen";
import { sayNumber, sayTransposition } from "../say-music";

function sayRepeat(from: Position, to: Position): string {
  const bars = to.barIndex - from.barIndex;
  const what = bars === 1 ? "The same bar comes" : `The same ${sayNumber(bars)} bars come`;
  return `${what} twice in a row: one of the two times goes.`;
}

function say({ score }: Heard, { from, to }: CutSpan, precedent: Precedent): string {
  const { kind, barIndex, semitones, likeness } = precedent;
  if (kind === "repeat") return sayRepeat(from, to);
  const isExact = likeness >= asGoodAsEqual;
  if (kind === "same-before") {
    const bars = isExact ? "The same bars lead" : "Nearly the same bars lead";
    return `${bars} to the cut and to ${namePosition(score, to)}: the join sounds ${isExact ? "as" : "much as"} the piece does there.`;
  }
  if (kind === "same-after")
    return `From ${namePosition(score, to)} the music goes on ${isExact ? "as" : "much as"} it would from ${namePosition(score, from)}.`;
  const place = namePosition(score, { barIndex, offset: from.offset });
  const higher = semitones === 0 ? "" : `, ${sayTransposition(semitones)}`;
  return `The composer makes ${isExact ? "this join" : "nearly this join"} at ${place}${higher}.`;
}

/** Where the piece makes the join itself. */
export function assessPrecedent({ heard, cut, before, after }: JoinEdges): JoinRow | null {
  if (!before || !after) return null;
  const precedent = precedentOf(heard, cut);
  return {
    kind: "precedent",
    grade: "clean",
    sentence: precedent ? say(heard, cut, precedent) : "The piece makes this join nowhere itself.",
    figures: {
      precedent: precedent?.kind ?? null,
      likeness: precedent?.likeness ?? null,
      semitones: precedent?.semitones ?? null,
    },
    noteIds: [],
    bars: precedent ? [precedent.barIndex] : [cut.from.barIndex, cut.to.barIndex],
  };
}
