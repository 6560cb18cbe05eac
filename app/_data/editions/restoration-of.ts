import { runningTimeWith } from "@/app/_data/desk/desk-time";
import { toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionContent } from "@/lib/edition/edition-content";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { contentAfter, isRestored, planRestoration } from "@/lib/edition/plan-restoration";
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
  const plan = planRestoration(now, old);
  const differences = compareContents(about, now, old);
  const left = differences.filter(({ mark }) => mark !== null).map(({ sentence }) => sentence);
  if (isRestored(plan)) {
    const problem = `What stands now is cut and timed as № ${edition.number} is. There is nothing to bring back.`;
    return { ...none, problem, left };
  }
  return {
    ...view,
    problem: null,
    steps: differences.filter(({ mark }) => mark === null).map((one) => sayStep(about, one, other)),
    left,
    secondsThen: secondsOf(about, contentAfter(now, plan)),
  };
}

function secondsOf(about: About, content: EditionContent): number {
  return runningTimeWith(inTimeOfContent(about, content), content.cuts.map(toCutSpan)).seconds;
}

function sayStep(about: About, { before, after, sentence }: EditionDifference, other: string): string {
  const names = namesOf(about);
  const name = (terms: NonNullable<typeof before>) => names.cut(toCutSpan(terms));
  const title = (terms: NonNullable<typeof before>) => names.cutTitle?.(terms) ?? "The cut";
  if (before && after)
    return `${title(before)} (${name(before)}) is reopened, and ${name(after)} put forward in its place; ${other} answers.`;
  if (before) return `${title(before)} (${name(before)}) is reopened: the bars are played again.`;
  if (after) return `The cut of ${name(after)} is put forward; ${other} answers.`;
  return `At once: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`;
}
