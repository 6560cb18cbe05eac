import type { BreathTerms } from "./breath-terms";
import type { CueTerms } from "./cue-terms";
import type { MarkPair } from "./pair-marks";
import type { RemarkTerms } from "./remark-terms";
import type { RewriteTerms } from "./rewrite-terms";

/** A breath, a cue, a rewrite or a printed comment that is new, gone, or another than before. */
export type MarkChange =
  | ({ readonly kind: "breath" } & MarkPair<BreathTerms>)
  | ({ readonly kind: "cue" } & MarkPair<CueTerms>)
  | ({ readonly kind: "rewrite" } & MarkPair<RewriteTerms>)
  | ({ readonly kind: "remark" } & MarkPair<RemarkTerms>);

/** One mark by itself. */
export type Mark =
  | { readonly kind: "breath"; readonly terms: BreathTerms }
  | { readonly kind: "cue"; readonly terms: CueTerms }
  | { readonly kind: "rewrite"; readonly terms: RewriteTerms }
  | { readonly kind: "remark"; readonly terms: RemarkTerms };

export type MarkKind = Mark["kind"];
