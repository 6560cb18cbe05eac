import type { BreathTerms } from "@/lib/edition/breath-terms";
import type { CueTerms } from "@/lib/edition/cue-terms";
import type { RemarkTerms } from "@/lib/edition/remark-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";
import type { TempoSettings } from "@/lib/score/tempo-settings";
import type { PageTurn } from "../pages/page-turn";
import type { PrintOptions } from "./print-options";

/** What stands over the music and at the foot of each page. */
export interface TitleBlock {
  readonly title: string;
  readonly movement: string | null;
  readonly composer: string | null;
  readonly soloInstrument: string | null;
  readonly editionNumber: number;
  /** ISO date. */
  readonly frozenOn: string;
  /** SHA-256 of the edition's content, hexadecimal. */
  readonly hash: string;
  readonly players: readonly { readonly name: string; readonly role: string; readonly agreedOn: string }[];
}

/** What an edition adds to the printed music, as it was frozen. */
export interface EditionMarks {
  readonly breaths: readonly BreathTerms[];
  readonly cues: readonly CueTerms[];
  readonly rewrites: readonly RewriteTerms[];
  readonly remarks: readonly RemarkTerms[];
}

/** An edition to be printed. */
export interface PrintInput {
  /** The source, as it was uploaded. */
  readonly sourceMusicXml: Uint8Array;
  /** By MusicXML part id. */
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly cuts: readonly CutSpan[];
  /** None when it is not said. */
  readonly marks?: EditionMarks;
  readonly options: PrintOptions;
  readonly titleBlock: TitleBlock;
  /** The duo's own, over the printed tempi: seconds in which a page can be turned depend on it. */
  readonly tempo?: Partial<TempoSettings>;
  /** Bars of the source, by index, that begin a page because a player decided so. */
  readonly pinnedBars?: readonly number[];
}

/** A printed edition. */
export interface PrintedEdition {
  readonly pdf: Uint8Array;
  readonly pageCount: number;
  /** In the order of the pages. */
  readonly turns: readonly PageTurn[];
}
