import type { Fidelity, Kept } from "@/lib/rewrites/fidelity";

/** One thing that a listener hears, and whether it is still as printed. */
export interface FidelityRow {
  readonly name: string;
  readonly isKept: boolean;
  readonly words: string;
  /** What it was counted from. */
  readonly figures: string;
}

const isWhole = ({ kept, of }: Kept): boolean => kept === of;

/** "as printed", "other at 2 of 16 places". @param what is counted, in the plural. */
function sayKept({ kept, of }: Kept, what: string): string {
  if (kept === of) return "as printed";
  if (kept === 0) return of === 1 ? "other than printed" : "other than printed throughout";
  return `other at ${of - kept} of ${of} ${what}`;
}

/** What of the print is still heard, for the rows beside the keyboards. Harmony takes the inner doublings with it. */
export function fidelityRows(fidelity: Fidelity): FidelityRow[] {
  const { bass, topLine, harmony, keys } = fidelity;
  const doublings = isWhole(keys) ? "" : `, ${keys.of - keys.kept} of ${keys.of} keys left out or moved`;
  return [
    row("Bass", bass, "places", "onsets of the print have the same lowest note"),
    row("Top line", topLine, "places", "onsets of the print have the same highest note"),
    {
      name: "Harmony",
      isKept: isWhole(harmony),
      words: isWhole(harmony)
        ? `same chords${doublings}`
        : `${harmony.of - harmony.kept} of ${harmony.of} chord notes missing`,
      figures: `${harmony.kept} of ${harmony.of} pitch classes, beat by beat, are still heard; ${keys.kept} of ${keys.of} keys sound at the onsets of the print.`,
    },
  ];
}

function row(name: string, kept: Kept, what: string, counted: string): FidelityRow {
  return {
    name,
    isKept: isWhole(kept),
    words: sayKept(kept, what),
    figures: `${kept.kept} of ${kept.of} ${counted}.`,
  };
}

/** Whether the soloist would hear it: bass, top line, or something that a cue stands over. */
export interface HeardChange {
  readonly isChanged: boolean;
  readonly words: string;
  readonly figures: string;
}

/**
 * What the other player hears of a rewrite. Asking is suggested where bass or top line change, or where a cue stands over the
 * bars and their rhythm or accents change.
 *
 * @param cues words of the cues that stand over the bars.
 */
export function findHeardChange(fidelity: Fidelity, cues: readonly string[]): HeardChange {
  const { bass, topLine, rhythm, accents } = fidelity;
  const lines = [isWhole(topLine) ? null : "the top line", isWhole(bass) ? null : "the bass"].filter(
    (line) => line !== null,
  );
  const isRhythmKept = isWhole(rhythm) && isWhole(accents);
  const overCue = cues.length > 0 && (!isRhythmKept || lines.length > 0);
  const figures = `${rhythm.kept} of ${rhythm.of} onsets and ${accents.kept} of ${accents.of} accents of the print are still there; ${
    cues.length === 0 ? "no cue stands over these bars" : `cues over these bars: ${cues.join(", ")}`
  }.`;
  if (lines.length === 0 && !overCue) {
    const what = isRhythmKept ? "the same, inner notes apart" : "another inner rhythm, no cue changed";
    return { isChanged: false, words: `${what}: no answer needed`, figures };
  }
  const changed = [...lines, ...(overCue ? [`what is under ${cues[0]}`] : [])];
  return { isChanged: true, words: `${changed.join(" and ")} changes: better to ask`, figures };
}
