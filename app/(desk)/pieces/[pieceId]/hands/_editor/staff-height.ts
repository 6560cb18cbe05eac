import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { byStaffSteps } from "@/lib/rewrites/editing/nearest-pitch";
import { compareQuarters, noQuarters, readQuarters } from "@/lib/score/quarters";

interface Place {
  readonly barIndex: number;
  /** As `writeQuarters` writes it. */
  readonly offset: string;
  readonly staff: number;
}

/** What the line of a clef means, and where it is when the file does not say (MusicXML 4.0, `clef`). */
const clefs: Readonly<Record<string, { readonly pitch: RewritePitch; readonly line: number }>> = {
  G: { pitch: { step: "G", alter: 0, octave: 4 }, line: 2 },
  F: { pitch: { step: "F", alter: 0, octave: 3 }, line: 4 },
  C: { pitch: { step: "C", alter: 0, octave: 4 }, line: 3 },
};

/** The key signature that holds at a place: sharps when positive. */
export function fifthsAt({ keys }: Pick<DrawnPassage, "keys">, place: Place): number | null {
  const own = keys.filter(({ staff }) => staff === null || staff === place.staff);
  return lastBefore(own, place)?.fifths ?? 0;
}

/** The pitch, as the key has it, that a note so many steps over the bottom line of a staff means. */
export function pitchAtHeight(
  passage: Pick<DrawnPassage, "clefs" | "keys">,
  place: Place,
  steps: number,
): RewritePitch {
  const own = passage.clefs.filter(({ staff }) => staff === place.staff);
  const clef = lastBefore(own, place);
  const known = clefs[clef?.sign ?? ""] ?? clefs[place.staff === 1 ? "G" : "F"];
  if (!known) throw new RangeError("No clef is known");
  const line = clef?.line ?? known.line;
  const ofLine = { ...known.pitch, octave: known.pitch.octave + (clef?.octaveChange ?? 0) };
  return byStaffSteps(ofLine, steps - 2 * (line - 1), fifthsAt(passage, place));
}

function lastBefore<T extends { readonly barIndex: number; readonly offset: string }>(
  changes: readonly T[],
  { barIndex, offset }: Place,
): T | undefined {
  const at = readQuarters(offset) ?? noQuarters;
  return changes.findLast((change) => {
    if (change.barIndex !== barIndex) return change.barIndex < barIndex;
    return compareQuarters(readQuarters(change.offset) ?? noQuarters, at) <= 0;
  });
}
