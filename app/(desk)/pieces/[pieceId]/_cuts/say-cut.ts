import type { Desk, DeskAnswer, DeskCut } from "@/app/_data/desk/desk";
import type { IconName } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import type { Edge } from "@/app/_ui/sheet";
import { sayClock } from "@/lib/score/say-clock";
import { firstName, otherPlayer, personOf } from "../_components/person";

/** How a cut stands, in the words of its card. */
export interface CutWords {
  readonly edge: Edge;
  /** "Tobias proposes", "Ottilie counter-proposes", "agreed". */
  readonly headline: string;
  readonly state: string;
  readonly icon: IconName | null;
  readonly isWaiting: boolean;
  /** Laid aside: drawn nowhere, kept in the list. */
  readonly isAside: boolean;
}

function lastAnswer(cut: DeskCut, kind: DeskAnswer["answer"]): DeskAnswer | null {
  return cut.answers.findLast(({ answer }) => answer === kind) ?? null;
}

/** @param now decides whether a date needs its year. */
export function sayCut(desk: Pick<Desk, "people" | "me">, cut: DeskCut, now: Date): CutWords {
  const proposer = personOf(desk, cut.proposedBy);
  const name = firstName(proposer);
  const day = (iso: string) => sayDay(iso, now);
  const aside = { edge: "aside" as const, isWaiting: false, isAside: true };
  switch (cut.state) {
    case "open": {
      const isMine = proposer.userId === desk.me.userId;
      const verb = cut.instead ? "counter-proposes" : "proposes";
      const other = otherPlayer({ people: desk.people, me: proposer });
      const withWhom = other ? firstName(other) : "nobody yet";
      return {
        edge: inkOf(proposer.role),
        headline: isMine && !cut.instead ? name : `${name} ${verb}`,
        state: cut.waitsForMe ? "waits for you" : `with ${withWhom} since ${day(cut.createdAt)}`,
        icon: null,
        isWaiting: cut.waitsForMe,
        isAside: false,
      };
    }
    case "agreed": {
      const yes = lastAnswer(cut, "agree");
      const since = yes ? `agreed ${day(yes.at)}` : "agreed";
      return {
        edge: "agreed",
        headline: since,
        state: "agreed",
        icon: "check",
        isWaiting: false,
        isAside: false,
      };
    }
    case "declined": {
      const no = lastAnswer(cut, "decline");
      const by = no ? ` by ${firstName(personOf(desk, no.userId))}` : "";
      return { ...aside, headline: `${name} proposed`, state: `declined${by}`, icon: "cross" };
    }
    case "withdrawn":
      return { ...aside, headline: `${name} proposed`, state: "withdrawn", icon: "take-back" };
    case "reopened":
      return { ...aside, headline: `${name} proposed`, state: "reopened", icon: "take-back" };
    case "superseded":
      return { ...aside, headline: `${name} proposed`, state: "replaced", icon: null };
  }
}

/** What a laid-aside cut leaves behind, in one sentence. */
export function sayAside(desk: Pick<Desk, "people" | "me">, cut: DeskCut, now: Date): string {
  const answer = cut.answers.at(-1);
  if (!answer) return "";
  const who = firstName(personOf(desk, answer.userId));
  const when = sayDay(answer.at, now);
  if (cut.state === "declined") return answer.reason ? `“${answer.reason}”` : `${who} declined on ${when}.`;
  const reason = answer.reason ? ` “${answer.reason}”` : "";
  if (cut.state === "withdrawn") return `${who} took it back on ${when}.`;
  if (cut.state === "reopened") return `${who} reopened it on ${when}: the bars are played again.${reason}`;
  return `Other bars were proposed in its place on ${when}.`;
}

/** "Agreed. 8:42 of 9:00." */
export function sayAgreed(runningSeconds: number, limitSeconds: number | null): string {
  const of = limitSeconds === null ? "" : ` of ${sayClock(limitSeconds)}`;
  return `Agreed. ${sayClock(runningSeconds)}${of}.`;
}
