import { sayClock } from "@/lib/score/say-clock";
import { sayMissing } from "@/lib/score/say-seconds";

/** A set of cuts as it is put forward, by the numbers that the proposals bear. */
export interface ProposedSet {
  readonly numbers: readonly number[];
  /** Cuts agreed before that are not of the set. */
  readonly agreedNumbers: readonly number[];
  readonly runsSeconds: number;
  /** Null when there is none. */
  readonly limitSeconds: number | null;
}

/** "cut 2", "cuts 2, 3 and 4". */
function sayNumbers(numbers: readonly number[]): string {
  const sorted = numbers.toSorted((a, b) => a - b);
  if (sorted.length === 1) return `cut ${sorted[0]}`;
  return `cuts ${sorted.slice(0, -1).join(", ")} and ${sorted.at(-1)}`;
}

function sayLimit(runsSeconds: number, limitSeconds: number | null): string {
  if (limitSeconds === null) return ".";
  const limit = `the limit of ${sayClock(limitSeconds)}`;
  if (runsSeconds <= limitSeconds) return `, within ${limit}.`;
  return `, ${sayMissing(runsSeconds - limitSeconds)} over ${limit}.`;
}

/** What a set does to the running time: "With cuts 2, 3 and 4 the piece runs 7:24, within the limit of 7:30." */
export function sayProposedSet({ numbers, agreedNumbers, runsSeconds, limitSeconds }: ProposedSet): string {
  const beside = agreedNumbers.length > 0 ? ` beside the agreed ${sayNumbers(agreedNumbers)}` : "";
  return `With ${sayNumbers(numbers)}${beside} the piece runs ${sayClock(runsSeconds)}${sayLimit(runsSeconds, limitSeconds)}`;
}
