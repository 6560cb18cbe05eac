import { sayClock } from "@/lib/score/say-clock";
import { type CutTerms, toCutSpan } from "./cut-terms";
import type { EditionContent } from "./edition-content";
import type { PlaceNames } from "./edition-difference";
import type { Mark } from "./mark-change";
import { type PositionTerms, toPosition } from "./position-terms";
import type { RewriteTerms } from "./rewrite-terms";
import { sayMark } from "./say-mark-change";

/** Why a change between two editions does not fit a third. `found` is what stands there; null when nothing does. */
export type ChangeProblem =
  | { readonly kind: "other-edition" }
  | { readonly kind: "cut-missing"; readonly cut: CutTerms }
  | { readonly kind: "cut-of-another-source"; readonly cut: CutTerms }
  | { readonly kind: "cuts-overlap"; readonly cut: CutTerms; readonly other: CutTerms }
  | { readonly kind: "mark-missing"; readonly mark: Mark }
  | { readonly kind: "rewrite-of-another-source"; readonly rewrite: RewriteTerms }
  | { readonly kind: "rewrites-overlap"; readonly rewrite: RewriteTerms; readonly other: RewriteTerms }
  | { readonly kind: "marks-in-the-way" }
  | { readonly kind: "tempo-differs"; readonly at: PositionTerms; readonly found: number | null }
  | {
      readonly kind: "timing-differs";
      readonly from: PositionTerms;
      readonly to: PositionTerms;
      readonly found: number | null;
    }
  | { readonly kind: "tempi-differ" }
  | { readonly kind: "timings-differ" }
  | {
      readonly kind: "allowance-differs";
      readonly field: "ritardandoTo" | "fermataFactor";
      readonly found: number;
    }
  | {
      readonly kind: "part-differs";
      readonly partId: string;
      readonly found: EditionContent["partRoles"][string] | null;
    };

/** A sentence for the reader: what is in the way. */
export function sayChangeProblem(problem: ChangeProblem, names: PlaceNames): string {
  const cut = (terms: Pick<CutTerms, "from" | "to">) => names.cut(toCutSpan(terms));
  const place = (terms: PositionTerms) => names.place(toPosition(terms));
  switch (problem.kind) {
    case "other-edition":
      return "The change goes to another file, from an edition that is not this one.";
    case "cut-missing":
      return `The change opens or moves a cut (${cut(problem.cut)}) that this edition does not have.`;
    case "cut-of-another-source":
      return "The change adds a cut of another file, whose bars are not those of this edition.";
    case "cuts-overlap":
      return `The change adds a cut (${cut(problem.cut)}) that overlaps one of this edition (${cut(problem.other)}).`;
    case "mark-missing":
      return `The change takes off or changes ${sayMark(problem.mark, names)}, which this edition does not have.`;
    case "rewrite-of-another-source":
      return "The change adds a rewrite of another file, whose bars are not those of this edition.";
    case "rewrites-overlap":
      return `The change adds a rewrite (${cut(problem.rewrite)}) that overlaps one of this edition (${cut(problem.other)}).`;
    case "marks-in-the-way":
      return "The change goes back to an edition without breaths, cues, rewrites and printed comments, and this edition has some.";
    case "tempo-differs":
      return `The change sets the tempo at ${place(problem.at)}, where this edition has ${sayTempo(problem.found)}.`;
    case "timing-differs":
      return `The change sets the timing from ${place(problem.from)} to ${place(problem.to)}, where this edition has ${sayTiming(problem.found)}.`;
    case "tempi-differ":
      return "The change replaces all tempi, and those of this edition are others.";
    case "timings-differ":
      return "The change replaces all timings, and those of this edition are others.";
    case "allowance-differs": {
      const what =
        problem.field === "fermataFactor" ? "how long a fermata is held" : "how far a ritardando goes";
      return `The change sets ${what}, which is ${problem.found} in this edition and not what it was there.`;
    }
    case "part-differs":
      return `The change sets what part ${problem.partId} is for, which this edition has decided otherwise.`;
  }
}

const sayTempo = (found: number | null) =>
  found === null ? "the printed tempo" : `${found} quarters a minute`;
const sayTiming = (found: number | null) => (found === null ? "no timing" : sayClock(found));
