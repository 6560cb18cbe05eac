import type { EditionContent } from "@/lib/edition/edition-content";
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
export type EditionMarks = Pick<EditionContent, "breaths" | "cues" | "rewrites" | "remarks">;

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
