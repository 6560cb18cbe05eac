import type { Desk } from "@/app/_data/desk/desk";
import { findBarAt } from "@/app/_ui/strip/view-frame";
import { sayClock } from "@/lib/score/say-clock";

/** A moment of the piece in words: "Bar 87, after letter D, tutti, in cut 2 (proposed), 3:05." */
export function sayHere({ strip }: Pick<Desk, "strip">, second: number): string {
  const bar = findBarAt(strip.bars, second);
  const letter = strip.letters.findLast(({ at }) => at <= second + 0.01);
  const isTutti = strip.tuttis.some(({ from, to }) => second >= from - 0.01 && second < to - 0.01);
  const cut = strip.cuts.find(({ gaps }) =>
    gaps.some(({ from, to }) => second >= from - 0.01 && second < to - 0.01),
  );
  const isPencilled = strip.pencils.some(({ gaps }) =>
    gaps.some(({ from, to }) => second >= from - 0.01 && second < to - 0.01),
  );
  const isAtLetter = letter !== undefined && Math.abs(letter.at - second) < 0.02;
  return [
    `Bar ${bar?.label ?? ""}`,
    letter && (isAtLetter ? `letter ${letter.text}` : `after letter ${letter.text}`),
    isTutti ? "tutti" : "solo plays",
    cut && `in cut ${cut.number} (${cut.state === "agreed" ? "agreed" : "proposed"})`,
    isPencilled && "pencilled out",
    sayClock(second),
  ]
    .filter(Boolean)
    .join(", ");
}
