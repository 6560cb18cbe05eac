import { sayAgainstLimit } from "@/app/_ui/clock";
import { compareGrades, type JoinRow, type JoinRowKind } from "@/lib/cuts/join/join-row";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import type { JudgedCut } from "@/lib/study/judge-cut";
import { drawnKinds, isDrawn } from "../_join/join-words";

/** One side of a comparison: the figure, and in a word what it has over the other. */
export interface WeighedCell {
  readonly figure: string;
  /** "0:09 more", "within the limit"; null where it has nothing over the other. */
  readonly over: string | null;
  readonly small: string | null;
}

export interface WeighedRow {
  readonly what: string;
  readonly cells: readonly [WeighedCell, WeighedCell];
}

type Both = readonly [JudgedCut, JudgedCut];

function cells(
  both: Both,
  figure: (cut: JudgedCut) => string,
  over: (a: JudgedCut, b: JudgedCut) => string | null,
) {
  const [a, b] = both;
  return [
    { figure: figure(a), over: over(a, b), small: null },
    { figure: figure(b), over: over(b, a), small: null },
  ] as const;
}

function moreThan(a: number, b: number): string | null {
  const more = Math.round(a) - Math.round(b);
  return more > 0 ? `${sayClock(more)} more` : null;
}

function runningRow(both: Both, limit: number | null): WeighedRow {
  const runs = ({ weight }: JudgedCut) => weight.runningAfter.seconds;
  const isWithin = (cut: JudgedCut) => limit !== null && Math.round(runs(cut)) <= Math.round(limit);
  const made = cells(
    both,
    (cut) => sayClock(runs(cut)),
    (own, other) => (isWithin(own) && !isWithin(other) ? "within the limit" : null),
  );
  const withLimit = (index: 0 | 1): WeighedCell => ({
    ...made[index],
    small: limit === null ? null : `${sayAgainstLimit(runs(both[index]), limit)} of ${sayClock(limit)}`,
  });
  return { what: "Running time", cells: [withLimit(0), withLimit(1)] };
}

/** What two cuts cost and give, line by line. Saving more is said, not praised: the players decide what they need. */
export function weighTimes(both: Both, limit: number | null): WeighedRow[] {
  const rest = ({ weight }: JudgedCut) => weight.rest?.afterSeconds ?? null;
  return [
    {
      what: "Leaves out",
      cells: cells(
        both,
        ({ weight }) => sayBarCount(weight.barCount),
        () => null,
      ),
    },
    {
      what: "Saves",
      cells: cells(
        both,
        ({ weight }) => sayClock(weight.savedSeconds),
        (a, b) => moreThan(a.weight.savedSeconds, b.weight.savedSeconds),
      ),
    },
    runningRow(both, limit),
    {
      what: "Rest left",
      cells: cells(
        both,
        (cut) => {
          const left = rest(cut);
          return left === null ? "no rest changes" : sayClock(left);
        },
        (a, b) => {
          const [own, other] = [rest(a), rest(b)];
          return own === null || other === null ? null : moreThan(own, other);
        },
      ),
    },
  ];
}

/** One thing that was looked at on both joins; null on the side where it does not apply. */
export interface WeighedJoinRow {
  readonly kind: JoinRowKind;
  readonly rows: readonly [JoinRow | null, JoinRow | null];
  /** Which side is graded better; null where both are alike or one has nothing to grade. */
  readonly better: 0 | 1 | null;
}

function isWorthARow([a, b]: readonly [JoinRow | null, JoinRow | null]): boolean {
  return [a, b].some((row) => row !== null && row.grade !== "clean");
}

/** The rows of both joins side by side: the five that are drawn, then those in which one of them is not clean. */
export function weighJoins([a, b]: Both): WeighedJoinRow[] {
  const others = [...a.join.rows, ...b.join.rows].map(({ kind }) => kind).filter((kind) => !isDrawn(kind));
  const find = ({ join }: JudgedCut, kind: JoinRowKind) => join.rows.find((row) => row.kind === kind) ?? null;
  return [...drawnKinds, ...new Set(others)].flatMap((kind): WeighedJoinRow[] => {
    const rows = [find(a, kind), find(b, kind)] as const;
    const [first, second] = rows;
    if ((!first && !second) || (!isDrawn(kind) && !isWorthARow(rows))) return [];
    const order = first && second ? compareGrades(first.grade, second.grade) : 0;
    return [{ kind, rows, better: order === 0 ? null : order < 0 ? 0 : 1 }];
  });
}

/** Which of the two joins is better, in a sentence. */
export function sayBetterJoin(both: Both): string {
  const order = compareGrades(both[0].join.grade, both[1].join.grade);
  if (order < 0) return "The first join is the better one.";
  if (order > 0) return "The second join is the better one.";
  const won = weighJoins(both).map(({ better }) => better);
  const [first, second] = [0, 1].map((side) => won.filter((one) => one === side).length) as [number, number];
  if (first === second) return "The two joins are graded alike.";
  return first > second
    ? "Both joins are graded alike; the first is better in more of what was looked at."
    : "Both joins are graded alike; the second is better in more of what was looked at.";
}
