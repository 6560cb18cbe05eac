import { failure, type Result, success } from "@/lib/score/result";
import type { JsonValue } from "./canonical-json";
import type { ChangeProblem } from "./change-problem";
import { type EditionContent, sortContent } from "./edition-content";
import type { Mark, MarkChange } from "./mark-change";
import { isSame, sharesBars } from "./pair-marks";
import type { RewriteTerms } from "./rewrite-terms";

/** Whether an edition has anything that the first schema did not know. */
export function hasMarks({ breaths, cues, rewrites, remarks }: EditionContent): boolean {
  return [breaths, cues, rewrites, remarks].some((list) => list.length > 0);
}

/** An edition with one mark taken off (`before`), put in (`after`), or both. One that stands already is not put in twice. */
export function applyMark(
  content: EditionContent,
  change: MarkChange,
): Result<EditionContent, ChangeProblem> {
  switch (change.kind) {
    case "breath":
      return applied(content, change, { breaths: replace(content.breaths, change) });
    case "cue":
      return applied(content, change, { cues: replace(content.cues, change) });
    case "remark":
      return applied(content, change, { remarks: replace(content.remarks, change) });
    case "rewrite": {
      const rewrites = replace(content.rewrites, change);
      const inTheWay = change.after && findInTheWay(content, change.after, change.before);
      return inTheWay ? failure(inTheWay) : applied(content, change, { rewrites });
    }
  }
}

type Lists = Partial<{ [Name in "breaths" | "cues" | "rewrites" | "remarks"]: EditionContent[Name] | null }>;

function applied(
  content: EditionContent,
  { kind, before }: MarkChange,
  lists: Lists,
): Result<EditionContent, ChangeProblem> {
  if (Object.values(lists).includes(null))
    return failure({ kind: "mark-missing", mark: { kind, terms: before } as Mark });
  return success(sortContent({ ...content, ...(lists as Partial<EditionContent>) }));
}

/** Null when what is to be taken off is not there. */
function replace<Terms extends JsonValue>(
  list: Terms[],
  { before, after }: { readonly before: Terms | null; readonly after: Terms | null },
): Terms[] | null {
  const kept = before === null ? list : list.filter((terms) => !isSame(terms, before));
  if (before !== null && kept.length === list.length) return null;
  return after === null ? kept : [...kept, after];
}

function findInTheWay(
  { rewrites, sourceHash }: EditionContent,
  rewrite: RewriteTerms,
  before: RewriteTerms | null,
): ChangeProblem | null {
  if (rewrite.sourceHash !== sourceHash) return { kind: "rewrite-of-another-source", rewrite };
  const other = rewrites.find(
    (standing) =>
      sharesBars(standing, rewrite) &&
      !isSame(standing, rewrite) &&
      !(before !== null && isSame(standing, before)),
  );
  return other ? { kind: "rewrites-overlap", rewrite, other } : null;
}
