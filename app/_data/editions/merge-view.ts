import type { PositionTerms } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { TempoTerms } from "@/lib/edition/tempo-terms";

interface Ends {
  readonly from: PositionTerms;
  readonly to: PositionTerms;
}

/** What is sent when something of the other version is asked for here. */
export type MergeStep =
  | ({ readonly kind: "propose" } & Ends)
  /** In the place of a cut that is agreed here. */
  | ({ readonly kind: "counter-propose"; readonly proposalId: string } & Ends)
  | { readonly kind: "reopen"; readonly proposalId: string }
  /** In the place of what stands in these bars here, when anything does. */
  | { readonly kind: "ask about rewrite"; readonly terms: RewriteTerms; readonly replaces: string | null }
  | { readonly kind: "take off rewrite"; readonly rewriteId: string }
  | { readonly kind: "set tempi"; readonly settings: TempoTerms }
  | { readonly kind: "set parts"; readonly partRoles: Readonly<Record<string, string>> };

/** A way out of a conflict, with what it costs. */
export interface MergeCandidate {
  readonly name: "This one" | "The other" | "Both together";
  /** "bars 9–16 cut", "played". */
  readonly words: string;
  /** How long the piece runs with it. */
  readonly seconds: number;
  /** Needed rests that it leaves too little of, in sentences. */
  readonly rests: readonly string[];
  /** The cut whose join is judged, beside those that are agreed then; null where there is none. */
  readonly judged: { readonly cut: Ends; readonly agreed: readonly Ends[] } | null;
  /** Null for what stands already, and where it takes more than one step; `note` says which. */
  readonly step: MergeStep | null;
  readonly note: string | null;
}

export interface MergeOfferView {
  readonly sentence: string;
  /** Negative when this one would be shorter with it. */
  readonly secondsLonger: number;
  /** Why it cannot simply be had; null when it can. */
  readonly conflict: string | null;
  readonly candidates: readonly MergeCandidate[];
  readonly step: MergeStep | null;
  /** Said where nothing can be sent from here: it waits for an answer already, or is its author's own. */
  readonly note: string | null;
}

/** What another version of the same music has that this one lacks. */
export interface MergeView {
  readonly others: readonly { readonly pieceId: string; readonly name: string }[];
  /** The one that is looked at. */
  readonly otherId: string;
  readonly otherName: string;
  /** Why there is nothing to tell; null when there is. */
  readonly problem: string | null;
  /** Number of the other's newest edition. */
  readonly otherEdition: number;
  /** What both began with: "№ 1 of Jury", "the print". */
  readonly start: string;
  readonly sourceHash: string;
  readonly offers: readonly MergeOfferView[];
}
