import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";

export type Paper = "A4" | "Letter";

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

/** An edition to be printed. */
export interface PrintInput {
  /** The source, as it was uploaded. */
  readonly sourceMusicXml: Uint8Array;
  /** By MusicXML part id. */
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly cuts: readonly CutSpan[];
  /** The pianist gets the solo part small over the reduction, the soloist the solo part alone. */
  readonly reader: "pianist" | "soloist";
  readonly paper: Paper;
  readonly titleBlock: TitleBlock;
}
