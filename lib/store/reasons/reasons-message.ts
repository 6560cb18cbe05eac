import type { CutReasons } from "@/lib/edition/cut-reasons";
import type { CutTerms } from "@/lib/edition/cut-terms";
import type { RestNeedTerms } from "@/lib/edition/rest-need-terms";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import type { PartRole } from "@/lib/score/part";

export type CutPlaces = Pick<CutTerms, "from" | "to">;

/** Which cuts are judged, and in the light of what. Plain data, since it goes to another thread. */
export interface ReasonsQuestion {
  readonly cuts: readonly CutPlaces[];
  /** Agreed cuts, without those that a judged cut would replace. */
  readonly agreed: readonly CutPlaces[];
  readonly needs: readonly {
    readonly id: string;
    readonly terms: RestNeedTerms;
    readonly releasedBy: string | null;
  }[];
}

/** What the music is read from. */
export interface ReasonsSource {
  readonly bytes: Uint8Array;
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly tempo: TempoTerms;
}

export interface ReasonsRequest {
  readonly id: number;
  /** Hash of all that decides how the music is heard: what was heard under it lately need not be read again. */
  readonly key: string;
  readonly question: ReasonsQuestion;
  /** Sent when the thread has asked for it. */
  readonly source: ReasonsSource | null;
}

/** In the order of the cuts asked about; null for one that there is nothing to say of. */
export type FoundReasons = readonly (CutReasons | null)[];

export type ReasonsReply =
  | { readonly id: number; readonly kind: "not-read" }
  | { readonly id: number; readonly kind: "done"; readonly reasons: FoundReasons }
  | { readonly id: number; readonly kind: "failed"; readonly detail: string };
