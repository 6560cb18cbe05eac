import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";
import type { TitleBlock } from "./print-input";
import type { Paper } from "./print-options";

/** A stretch of the strip, in seconds from the start of the uncut piece. */
export interface StripSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** One cut as the sheet describes it. What stands around it on the page is read from the source. */
export interface SheetCut {
  readonly number: number;
  readonly span: CutSpan;
  /** The tutti that it shortens; null when the soloist plays there. */
  readonly tutti: "opening" | "interlude" | "closing" | null;
  readonly barCount: number;
  readonly savedSeconds: number;
}

/** The piece as a strip, as it is before the cuts. */
export interface SheetStrip {
  readonly totalSeconds: number;
  readonly soloPlays: readonly StripSpan[];
  readonly tuttis: readonly (StripSpan & { readonly barCount: number })[];
  readonly cuts: readonly (StripSpan & { readonly number: number })[];
  /** Rehearsal letters. */
  readonly letters: readonly { readonly text: string; readonly seconds: number }[];
}

/** Everything on a cut sheet. */
export interface CutSheetInput {
  /** The source, as it was uploaded. */
  readonly sourceMusicXml: Uint8Array;
  /** By MusicXML part id. */
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly paper: Exclude<Paper, "tablet">;
  readonly titleBlock: TitleBlock;
  readonly barCount: number;
  readonly playedBarCount: number;
  /** With the cuts. */
  readonly runningSeconds: number;
  readonly limitSeconds: number | null;
  /** What it is played for: "Ostermark Brass Prize", "second round", ISO date. */
  readonly occasion: {
    readonly name: string;
    readonly round: string | null;
    readonly on: string | null;
  } | null;
  readonly strip: SheetStrip;
  /** In the order of the piece. */
  readonly cuts: readonly SheetCut[];
}
