import type { Position } from "@/lib/score/position";
import { compareQuarters, isEqualQuarters, noQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { cueTermsSchema } from "./cue-terms";
import { type Marks, noMarks, sortMarks } from "./edition-content";
import { type PositionTerms, toPositionTerms } from "./position-terms";
import { remarkTermsSchema } from "./remark-terms";

/** What players wrote over the music, before it is a part of an edition. */
export interface WrittenMarks {
  readonly breaths: readonly { readonly at: Position }[];
  readonly cues: readonly { readonly at: Position; readonly text: string }[];
  readonly remarks: readonly {
    readonly from: Position;
    readonly to: Position;
    readonly text: string;
    /** The author's name. */
    readonly by: string;
  }[];
}

/**
 * The breaths, cues and remarks of an edition: each once, in the order of the page, and each place spelt in one way. A
 * place that a cut leaves out keeps its mark. What lies on no bar of the piece, or has no words, is left out.
 */
export function gatherMarks(score: Score, { breaths, cues, remarks }: WrittenMarks): Omit<Marks, "rewrites"> {
  return sortMarks({
    ...noMarks,
    breaths: breaths.flatMap(({ at }) => {
      const place = spellPlace(score, at);
      return place ? [{ at: place }] : [];
    }),
    cues: cues.flatMap(({ at, text }) => {
      const read = cueTermsSchema.safeParse({ at: spellPlace(score, at), text: text.normalize("NFC") });
      return read.success ? [read.data] : [];
    }),
    remarks: remarks.flatMap(({ from, to, text, by }) => {
      const [start, end] = [spellPlace(score, from), spellPlace(score, to)];
      const words = { text: text.normalize("NFC"), by: by.normalize("NFC") };
      const read = remarkTermsSchema.safeParse({ from: start, to: end, ...words });
      return read.success ? [read.data] : [];
    }),
  });
}

/** The end of a bar is the start of the next, but for the last; null for a place that the piece does not have. */
function spellPlace(score: Score, { barIndex, offset }: Position): PositionTerms | null {
  const bar = score.bars[barIndex];
  if (!bar || compareQuarters(offset, noQuarters) < 0 || compareQuarters(offset, bar.length) > 0) return null;
  const isAtEnd = isEqualQuarters(offset, bar.length) && offset.num > 0;
  return isAtEnd && score.bars[barIndex + 1]
    ? { barIndex: barIndex + 1, offset: "0" }
    : toPositionTerms({ barIndex, offset });
}
