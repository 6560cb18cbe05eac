import type { Desk } from "@/app/_data/desk/desk";
import { sayClock } from "@/lib/score/say-clock";
import type { RestRow } from "./rest-rows";
import type { RestWords } from "./solo-system";

/** What stands under the many-bar rests of the part: how long they last, and how long they were. */
export function findRestWords(rows: readonly RestRow[]): RestWords[] {
  return rows.map(({ rest, openSeconds }) => {
    const { before, after } = rest.seconds;
    const now = openSeconds === null ? sayClock(after) : `${sayClock(after)} → ${sayClock(openSeconds)}`;
    const isTaken = Math.abs(before - after) >= 0.5;
    return {
      firstBar: rest.from.barIndex,
      lastBar: rest.to.barIndex,
      words: isTaken ? `${now} (${sayClock(before)} as written)` : now,
    };
  });
}

/** The first entry at or after a moment of the piece as written; the last row when none follows. */
export function rowBefore(
  { strip }: Pick<Desk, "strip">,
  rows: readonly RestRow[],
  second: number,
): string | null {
  const at = (row: RestRow) =>
    strip.bars.find(({ barIndex }) => barIndex === row.entry.barIndex)?.to ?? Number.POSITIVE_INFINITY;
  return (rows.find((row) => at(row) > second) ?? rows.at(-1))?.key ?? null;
}
