import { type EditionContent, isSameEdition, noMarks } from "@/lib/edition/edition-content";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import type { LastApproval } from "@/lib/store/editions/last-approvals";
import type { WorkingEdition } from "@/lib/store/editions/working-edition";
import type { AgreeingView, SaidChange, SeenSince } from "./agreeing-view";

/** What it is told from. */
export interface AgreeingOf {
  /** Content, hash and every yes, as one picture. */
  readonly working: WorkingEdition;
  /** The newest first. */
  readonly editions: readonly EditionRecord[];
  readonly myId: string;
  readonly compare: (earlier: EditionContent, later: EditionContent) => EditionDifference[];
  /** How long a content runs; null for one of another file. */
  readonly secondsOf: (content: EditionContent) => number | null;
}

/**
 * What the viewer has to see before they agree: all that changed since they last did, or since the last edition, or against
 * the print. The hash is that of exactly the content which the sentences are told from.
 */
export function findAgreeing(about: AgreeingOf): AgreeingView {
  const { working, myId } = about;
  const mine = working.lastApprovals.find(({ userId }) => userId === myId);
  const [since, seen] = findSeen(about, mine);
  const unseen = sayAll(about, seen, working.content);
  const [before, now] = [about.secondsOf(seen), about.secondsOf(working.content)];
  return {
    ...{ hash: working.hash, marksHash: working.marksHash, since, unseen },
    secondsLonger:
      before === null || now === null
        ? unseen.reduce((sum, { secondsLonger }) => sum + secondsLonger, 0)
        : now - before,
    overtaken: working.lastApprovals
      .filter((approval) => isOvertaken(about, approval))
      .map(({ userId, at, content }) => ({
        ...{ userId, at: at.toISOString() },
        changes: content && sayAll(about, content, working.content),
      })),
  };
}

/** What the viewer has seen, and how it is called. */
function findSeen(about: AgreeingOf, mine: LastApproval | undefined): [SeenSince, EditionContent] {
  if (mine?.content && !isFrozen(about, mine))
    return [{ kind: "my yes", at: mine.at.toISOString(), isTakenBack: mine.isTakenBack }, mine.content];
  const [last] = about.editions;
  if (last) return [{ kind: "edition", number: last.number }, last.content];
  return [{ kind: "print" }, printOf(about.working.content)];
}

/** The parts as they are used now, and nothing of the players' own. */
function printOf(content: EditionContent): EditionContent {
  return { ...content, ...noMarks, cuts: [], tempo: printedTempo };
}

/** Whether the last edition was made of what this was given to. */
function isFrozen({ editions: [last] }: AgreeingOf, { hash }: LastApproval): boolean {
  return last?.hash === hash;
}

/** Another player's yes to something that is no edition and is not what stands now. One that was taken back is none. */
function isOvertaken(about: AgreeingOf, approval: LastApproval): boolean {
  const { userId, hash, isTakenBack } = approval;
  const isSettled = about.editions.some((edition) => edition.hash === hash);
  return userId !== about.myId && !isTakenBack && !isSettled && hash !== about.working.hash;
}

/** Everything in which two contents differ. From another file nothing is known: then it is all that the later one has. */
function sayAll({ compare }: AgreeingOf, before: EditionContent, after: EditionContent): SaidChange[] {
  if (isSameEdition(before, after)) return [];
  const isOtherFile = before.sourceHash !== after.sourceHash;
  const differences = [...compare(before, after), ...(isOtherFile ? compare(printOf(after), after) : [])];
  return differences.map(({ sentence, secondsLonger }) => ({ sentence, secondsLonger }));
}
