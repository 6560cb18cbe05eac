import { applyChanges } from "@/lib/edition/apply-changes";
import type { EditionChange } from "@/lib/edition/edition-change";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { type About, compareContents } from "./edition-sides";

/** One change by itself, as a comparison would tell it, with how much longer the piece runs by it. */
export function sayOffer(
  about: About,
  base: EditionContent,
  change: EditionChange,
): { sentence: string; secondsLonger: number } {
  const [before, after] = aroundChange(base, change);
  const [difference] = compareContents(about, before, after);
  return {
    sentence: difference?.sentence ?? "Something that has no name here.",
    secondsLonger: difference?.secondsLonger ?? 0,
  };
}

/** The start with nothing but this change before and after it: what else stands there does not get in its way. */
function aroundChange(base: EditionContent, change: EditionChange): [EditionContent, EditionContent] {
  const bare: EditionContent = { ...base, ...noMarks, schema: 2, cuts: [] };
  const list = <Terms>(terms: Terms | null) => (terms === null ? [] : [terms]);
  switch (change.kind) {
    case "cut":
      return [
        { ...bare, cuts: list(change.before) },
        { ...bare, cuts: list(change.after) },
      ];
    case "breath":
      return [
        { ...bare, breaths: list(change.before) },
        { ...bare, breaths: list(change.after) },
      ];
    case "cue":
      return [
        { ...bare, cues: list(change.before) },
        { ...bare, cues: list(change.after) },
      ];
    case "rewrite":
      return [
        { ...bare, rewrites: list(change.before) },
        { ...bare, rewrites: list(change.after) },
      ];
    case "remark":
      return [
        { ...bare, remarks: list(change.before) },
        { ...bare, remarks: list(change.after) },
      ];
    default: {
      const applied = applyChanges(base, [change]);
      return [base, applied.ok ? applied.value : base];
    }
  }
}
