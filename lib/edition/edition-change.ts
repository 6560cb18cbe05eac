import type { CutTerms } from "./cut-terms";
import type { EditionContent } from "./edition-content";
import type { MarkChange } from "./mark-change";
import type { PositionTerms } from "./position-terms";
import type { TempoTerms } from "./tempo-terms";

type PartRoleTerms = EditionContent["partRoles"][string];

/**
 * One step from an edition to another, with what stood there before and what stands there after it; null where there
 * is nothing. Exact: the steps that `findChanges` finds make the one edition of the other, to the letter of its hash.
 */
export type EditionChange =
  /** A cut is new (`before` is null), gone (`after` is null), or moved. */
  | { readonly kind: "cut"; readonly before: CutTerms | null; readonly after: CutTerms | null }
  | MarkChange
  | {
      readonly kind: "tempo";
      readonly at: PositionTerms;
      readonly before: number | null;
      readonly after: number | null;
    }
  | {
      readonly kind: "timing";
      readonly from: PositionTerms;
      readonly to: PositionTerms;
      readonly before: number | null;
      readonly after: number | null;
    }
  | {
      readonly kind: "allowance";
      readonly field: "ritardandoTo" | "fermataFactor";
      readonly before: number;
      readonly after: number;
    }
  | {
      readonly kind: "part";
      readonly partId: string;
      readonly before: PartRoleTerms | null;
      readonly after: PartRoleTerms | null;
    }
  /** Tempi or timings as whole lists, where one of the lists names a place twice or out of order. */
  | {
      readonly kind: "tempi";
      readonly before: TempoTerms["tempi"];
      readonly after: TempoTerms["tempi"];
    }
  | {
      readonly kind: "timings";
      readonly before: TempoTerms["timings"];
      readonly after: TempoTerms["timings"];
    }
  /** As what the edition is frozen: the first schema has no marks at all. */
  | { readonly kind: "schema"; readonly before: 1 | 2; readonly after: 1 | 2 }
  /** Another file: nothing of the one edition has a place in the other. */
  | { readonly kind: "source"; readonly before: EditionContent; readonly after: EditionContent };
