import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";
import type { Paper, TitleBlock } from "./print-input";

/** A stretch of the strip, in seconds of the uncut piece. */
export interface StripSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** One cut as the sheet describes it. */
export interface SheetCut {
  readonly number: number;
  readonly span: CutSpan;
  /** "8", "84": printed numbers around the cut; `beforePlace` such as "end of" or "beat 2 of". */
  readonly beforePlace: string;
  readonly beforeLabel: string;
  readonly afterPlace: string | null;
  readonly afterLabel: string;
  /** After the label: "four before" the boxed letter; null without one. */
  readonly afterContext: { readonly words: string; readonly letter: string | null } | null;
  /** "opening tutti", "tutti at" the boxed letter. */
  readonly tutti: { readonly words: string; readonly letter: string | null } | null;
  readonly barCount: number;
  readonly savedSeconds: number;
}

/** Everything on a cut sheet. */
export interface CutSheetInput {
  readonly sourceMusicXml: Uint8Array;
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly paper: Paper;
  readonly titleBlock: TitleBlock;
  readonly barCount: number;
  readonly playedBarCount: number;
  readonly runningSeconds: number;
  readonly limitSeconds: number | null;
  readonly occasion: {
    readonly name: string;
    readonly kind: string | null;
    readonly on: string | null;
  } | null;
  readonly strip: {
    /** Of the uncut piece. */
    readonly totalSeconds: number;
    readonly soloPlays: readonly StripSpan[];
    readonly tuttis: readonly (StripSpan & { readonly barCount: number })[];
    readonly cuts: readonly (StripSpan & { readonly number: number })[];
    readonly letters: readonly { readonly text: string; readonly seconds: number }[];
  };
  /** In the order of the piece. */
  readonly cuts: readonly SheetCut[];
}
