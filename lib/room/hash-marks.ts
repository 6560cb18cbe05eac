import { hashTerms } from "@/lib/edition/hash-terms";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { StandingMarks } from "./standing-marks";

/**
 * A number for the marks of a room, the same for the same marks in whatever order they were written: by it a page that
 * is open knows whether what it shows of the edition is still what stands. SHA-256 in hexadecimal.
 */
export function hashMarks({ breaths, cues, remarks }: StandingMarks): string {
  const terms = {
    breaths: breaths.map(({ at }) => toPositionTerms(at)),
    cues: cues.map(({ at, text }) => ({ at: toPositionTerms(at), text })),
    remarks: remarks.map(({ from, to, text, authorId }) => ({
      ...{ from: toPositionTerms(from), to: toPositionTerms(to), text, authorId },
    })),
  };
  const inOrder = Object.entries(terms).map(([kind, list]) => [kind, ...list.map(hashTerms).sort()]);
  return hashTerms(inOrder);
}
