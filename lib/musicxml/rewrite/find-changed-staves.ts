import { toPosition } from "@/lib/edition/position-terms";
import type { RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { comparePositions } from "@/lib/score/position";
import { readQuarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/**
 * The staves on which a rewrite is not what is printed: only they are shown as an ossia. All of them when none differs.
 */
export function findChangedStaves(rewrite: RewriteTerms, score: Score): Set<number> {
  const staves = new Set(rewrite.events.map(({ staff }) => staff));
  const changed = [...staves].filter((staff) => !isAsPrinted(rewrite, score, staff));
  return changed.length > 0 ? new Set(changed) : staves;
}

/** The same pitches struck at the same places, and each rewritten one as long as it is printed. */
function isAsPrinted(rewrite: RewriteTerms, score: Score, staff: number): boolean {
  const [from, to] = [toPosition(rewrite.from), toPosition(rewrite.to)];
  const part = score.parts.find(({ id }) => id === rewrite.partId);
  const printed = new Set<string>();
  for (const note of part?.notes ?? []) {
    const bar = score.bars[note.barIndex];
    if (!bar || note.staff !== staff || !note.written) continue;
    const at = { barIndex: note.barIndex, offset: subtractQuarters(note.onset, bar.start) };
    if (comparePositions(at, from) < 0 || comparePositions(at, to) >= 0) continue;
    if (note.tremolo || note.isGrace) return false;
    const offset = writeQuarters(at.offset);
    printed.add(`${at.barIndex} ${offset} ${writeQuarters(note.duration)} ${nameOf(note.written)}`);
  }
  const events = rewrite.events.filter((event) => event.staff === staff);
  if (events.some(({ tremolo, isRolled }) => tremolo || isRolled)) return false;
  const written = new Set(
    events.flatMap(({ at, lasts, pitches }) => {
      const length = readQuarters(lasts);
      return pitches.map(
        (pitch) => `${at.barIndex} ${at.offset} ${length ? writeQuarters(length) : ""} ${nameOf(pitch)}`,
      );
    }),
  );
  return printed.size === written.size && [...printed].every((note) => written.has(note));
}

const nameOf = ({ step, alter, octave }: Pick<RewritePitch, "step" | "octave"> & { alter: number }): string =>
  `${step}${alter}${octave}`;
