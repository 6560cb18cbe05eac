import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { ScreenLayoutName } from "../engrave-layout";

/** How a rewrite of a passage is shown: not at all, instead of the print, or small over it. */
export const passageViews = ["printed", "instead", "ossia"] as const;
export type PassageView = (typeof passageViews)[number];

/** A few bars of one part, to be drawn alone. Plain data: it is sent to the thread that engraves. */
export interface PassageInput {
  /** Of the source's bytes: under it the thread keeps what it has read. */
  readonly sourceHash: string;
  /** Null once the thread has them: it says when it does not. */
  readonly source: Uint8Array | null;
  readonly partId: string;
  /** Bars by index, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  /** Of bars among these; null when the print alone is drawn. */
  readonly rewrite: RewriteTerms | null;
  readonly as: PassageView;
  readonly layout: ScreenLayoutName;
}
