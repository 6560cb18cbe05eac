import type { ArchivedRecord, ArchiveManifest } from "@/lib/edition/archive/archive-schemas";
import type { ArchiveCheck } from "@/lib/edition/archive/check-edition-archive";
import type { BarShare } from "@/lib/edition/compare-bars";

/** What an exported edition holds, and whether it is what was exported. Plain data; times in seconds. */
export interface EditionReport {
  readonly kind: "edition";
  readonly piece: ArchiveManifest["piece"];
  readonly number: number;
  readonly hash: string;
  /** Stands for the whole archive: two archives with one seal are the same. */
  readonly seal: string;
  readonly rendererVersion: string;
  /** Whether everything that was looked at holds. */
  readonly isWhole: boolean;
  /** Whether the bytes are those that we pack; when they are not, another program packed the same files anew. */
  readonly isAsPacked: boolean;
  readonly checks: readonly ArchiveCheck[];
  /** Null when its source cannot be read or the edition does not fit it. */
  readonly music: EditionMusic | null;
  /** The chain, № 1 first. */
  readonly editions: readonly InspectedEdition[];
}

/** The exported edition in its music. */
export interface EditionMusic {
  readonly runsSeconds: number;
  readonly sentence: string;
  /** In the order of the page. What each saves is told as if it were the only one. */
  readonly cuts: readonly { readonly name: string; readonly savedSeconds: number }[];
  /** A line each, in the order of the page: "at the end of bar 107", "bar 143: Fl.", "Ossia in bars 41–44: tremolo". */
  readonly breaths: readonly string[];
  readonly cues: readonly string[];
  readonly rewrites: readonly string[];
  /** Comments printed at their bars: "bars 97–99, Nerys Quill: “Wait.”" */
  readonly remarks: readonly string[];
  /** All printed bars, by their labels. */
  readonly bars: readonly { readonly first: string; readonly last: string; readonly plays: BarShare }[];
}

export interface InspectedEdition extends Omit<ArchivedRecord, "schema"> {
  readonly cutCount: number;
  /** Null as `music` above. */
  readonly runsSeconds: number | null;
  /** What changed since the edition before it, since the print for the first; null when it cannot be told. */
  readonly changes: readonly string[] | null;
}
