import { runningTimeWith } from "@/app/_data/desk/desk-time";
import { toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionContent } from "@/lib/edition/edition-content";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import type { MarkChange } from "@/lib/edition/mark-change";
import { contentAfter, isRestored, planRestoration } from "@/lib/edition/plan-restoration";
import { may } from "@/lib/store/who-may";
import { type About, compareContents, inTimeOfContent, isOfThisFile, namesOf } from "./edition-sides";
import type { RestorationView } from "./editions-view";

/**
 * What bringing an edition back would do, in sentences; null when none is asked for.
 *
 * @param other first name of the player who is asked.
 */
export function findRestoration(about: About, asked: unknown, other: string): RestorationView | null {
  const edition = about.editions.find(({ number }) => `${number}` === asked);
  if (!edition) return null;
  const { working } = about;
  const now = working.content;
  const old = edition.content;
  const secondsNow = secondsOf(about, now);
  const view = { number: edition.number, workingHash: working.hash, secondsNow };
  const none = { ...view, steps: [], left: [], secondsThen: secondsNow };
  if (!isOfThisFile(about, old)) {
    const problem = `№ ${edition.number} was made from another file, so its cuts have no place in this one. It stays to be read and printed.`;
    return { ...none, problem };
  }
  const rewrites = may(about.piece.myRole, "rewrite");
  const plan = planRestoration(now, old, { rewrites });
  const differences = compareContents(about, now, old);
  const isDone = ({ mark }: EditionDifference) => mark === null || (rewrites && mark.kind === "rewrite");
  const left = differences.filter((one) => !isDone(one)).map(({ sentence }) => sentence);
  if (isRestored(plan)) {
    const problem = `What stands now is cut and timed as № ${edition.number} is. There is nothing to bring back.`;
    return { ...none, problem, left };
  }
  return {
    ...view,
    problem: null,
    steps: differences.filter(isDone).map((one) => sayStep(about, one, other)),
    left,
    secondsThen: secondsOf(about, contentAfter(now, plan)),
  };
}

function secondsOf(about: About, content: EditionContent): number {
  return runningTimeWith(inTimeOfContent(about, content), content.cuts.map(toCutSpan)).seconds;
}

function sayStep(about: About, difference: EditionDifference, other: string): string {
  const { before, after, sentence, mark } = difference;
  const names = namesOf(about);
  if (mark?.kind === "rewrite") return sayRewriteStep(names, mark, other);
  const name = (terms: NonNullable<typeof before>) => names.cut(toCutSpan(terms));
  const title = (terms: NonNullable<typeof before>) => names.cutTitle?.(terms) ?? "The cut";
  if (before && after)
    return `${title(before)} (${name(before)}) is reopened, and ${name(after)} put forward in its place; ${other} answers.`;
  if (before) return `${title(before)} (${name(before)}) is reopened: the bars are played again.`;
  if (after) return `The cut of ${name(after)} is put forward; ${other} answers.`;
  return `At once: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`;
}

function sayRewriteStep(
  names: ReturnType<typeof namesOf>,
  { before, after }: Extract<MarkChange, { kind: "rewrite" }>,
  other: string,
): string {
  const bars = (terms: NonNullable<typeof before>) => names.cut(toCutSpan(terms));
  const back =
    after && `comes back for ${bars(after)}: told at once where it was told, else ${other} answers.`;
  if (before && back) return `The rewrite of ${bars(before)} is taken off, and another ${back}`;
  if (before) return `The rewrite of ${bars(before)} is taken off: the print is played again.`;
  return `A rewrite ${back}`;
}
