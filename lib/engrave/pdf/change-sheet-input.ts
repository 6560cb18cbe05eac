import type { SheetStrip } from "./cut-sheet-input";
import type { TitleBlock } from "./print-input";
import type { Paper } from "./print-options";

/** One side of the comparison. */
export interface ChangeSheetSide {
  /** "Edition № 3", "The printed music". */
  readonly name: string;
  readonly runningSeconds: number;
  readonly playedBarCount: number;
  /** The piece as it is printed, with this side's cuts. */
  readonly strip: SheetStrip;
}

/** Differences of one kind, in the order of the page. */
export interface ChangeSheetSection {
  /** "Cuts". */
  readonly title: string;
  readonly lines: readonly {
    readonly sentence: string;
    /** How much longer the later edition runs because of it; 0 where that is not measured. */
    readonly secondsLonger: number;
  }[];
}

/** Everything on the sheet that tells what changed from one edition to another. */
export interface ChangeSheetInput {
  readonly paper: Exclude<Paper, "tablet">;
  /** Of the later edition. */
  readonly titleBlock: TitleBlock;
  readonly barCount: number;
  /** Null where the music itself is another file: then nothing can be laid side by side. */
  readonly sides: { readonly earlier: ChangeSheetSide; readonly later: ChangeSheetSide } | null;
  /** Those without lines are left out. */
  readonly sections: readonly ChangeSheetSection[];
}
