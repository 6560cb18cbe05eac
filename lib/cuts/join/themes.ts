import { findParallels } from "@/lib/harmony/find-parallels";
import type { Score } from "@/lib/score/score";

/** A passage that comes more than once, and where. Bars by index, end exclusive. */
export interface Theme {
  readonly statements: readonly { readonly from: number; readonly to: number }[];
}

/** Shortest passage that counts as a theme. Source: common practice, half of a period of eight bars. */
const leastBars = 4;

/** Every passage of four bars and more with all passages that say the same as it, on whatever degree. */
export function findThemes(score: Score): Theme[] {
  return findParallels(score, { leastBars }).flatMap(({ first, second }) => {
    // A figure that repeats itself overlaps its own copy: no theme that comes again.
    return second.from < first.to ? [] : [{ statements: [first, second] }];
  });
}

/** What a cut does to the themes that it touches. */
export interface ThemesKept {
  /** Statements that go, each with one that stays. */
  readonly heardElsewhere: readonly { readonly from: number; readonly elsewhere: number }[];
  /** First bars of themes all of whose statements go. */
  readonly lost: readonly number[];
}

const longest = (a: { from: number; to: number }, b: { from: number; to: number }) =>
  b.to - b.from - (a.to - a.from) || a.from - b.from;

/** Whether the bars `[from, to)` leave a statement of each theme that begins in them. */
export function findThemesKept(themes: readonly Theme[], from: number, to: number): ThemesKept {
  const isTaken = (statement: { from: number; to: number }) =>
    statement.from < to &&
    from < statement.to &&
    overlap(statement, from, to) * 2 > statement.to - statement.from;
  const touched = themes.filter(({ statements }) => statements.some(isTaken));
  const kept = touched.flatMap(({ statements }) => {
    const stays = statements.find((statement) => !isTaken(statement));
    return statements.filter(isTaken).flatMap((taken) => (stays ? [{ taken, stays }] : []));
  });
  const isKept = (statement: { from: number; to: number }) =>
    kept.some(({ taken }) => overlap(statement, taken.from, taken.to) * 2 >= statement.to - statement.from);
  const gone = touched.flatMap(({ statements }) => (statements.every(isTaken) ? statements : []));
  const lost = gone.filter((statement) => !isKept(statement)).sort(longest);
  return {
    heardElsewhere: kept
      .toSorted((a, b) => longest(a.taken, b.taken))
      .map(({ taken, stays }) => ({ from: taken.from, elsewhere: stays.from })),
    lost: [...new Set(lost.map((statement) => statement.from))],
  };
}

function overlap(statement: { from: number; to: number }, from: number, to: number): number {
  return Math.max(0, Math.min(statement.to, to) - Math.max(statement.from, from));
}
