import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import type { Seconds } from "@/lib/score/seconds";
import type { CutTerms } from "./cut-terms";
import type { MarkChange } from "./mark-change";

/** One difference between two editions, with a sentence for musicians. */
export interface EditionDifference {
  readonly kind:
    | "source-changed"
    | "cut-added"
    | "cut-removed"
    | "cut-moved"
    | "breath-changed"
    | "cue-changed"
    | "rewrite-changed"
    | "remark-changed"
    | "tempo-changed"
    | "part-changed";
  readonly sentence: string;
  /** How much longer the later edition runs because of it; negative when it is shorter. */
  readonly secondsLonger: Seconds;
  /** The terms in the earlier and in the later edition, for differences of cuts; null where there are none. */
  readonly before: CutTerms | null;
  readonly after: CutTerms | null;
  /** What became of a breath, a cue, a rewrite or a printed comment; null for all else. */
  readonly mark: MarkChange | null;
}

/** How places of the piece are called, by the bar numbers on the page: "bars 85–96", "bar 85 beat 3". */
export interface PlaceNames {
  readonly cut: (span: CutSpan) => string;
  readonly place: (position: Position) => string;
  /** What the cut itself is called, "Cut 2" or "Cut B"; "Cut" where it is not told or null. */
  readonly cutTitle?: (cut: CutTerms) => string | null;
}
