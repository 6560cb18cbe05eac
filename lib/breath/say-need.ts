import type { RestUnderCuts } from "@/lib/edition/rest-under-cuts";
import type { RestLeft } from "@/lib/score/rest-left";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayLeft, sayMissing } from "@/lib/score/say-seconds";
import type { Score } from "@/lib/score/score";
import type { RestVerdict } from "./check-rest-needs";

/** "Before bar 97", or where the need lies when no entry follows. */
function sayWhere(score: Score, { need, before }: RestUnderCuts): string {
  const label = (barIndex: number) => score.bars[barIndex]?.label ?? "";
  for (const part of before?.nextNoteId ? score.parts : []) {
    const entry = part.notes.find(({ id }) => id === before?.nextNoteId);
    if (entry) return `Before bar ${label(entry.barIndex)}`;
  }
  return `From bar ${label(need.from.barIndex)} on`;
}

/** A need in a sentence: what is there, what the cuts leave, what is needed and why, and what is missing. */
export function sayNeed(score: Score, rest: RestUnderCuts, verdict: RestVerdict): string {
  const { need, before, after, shortAfter } = rest;
  const where = sayWhere(score, rest);
  if (verdict === "no rest" || !before || !after) {
    const place = score.bars[need.from.barIndex]?.label ?? "";
    return `The soloist does not rest at bar ${place}: the need (${need.why}) has no rest to lie in.`;
  }
  const isInSeconds = "seconds" in need.needs;
  const amount = (left: RestLeft) =>
    isInSeconds ? sayLeft(left.milliseconds / 1000) : sayBarCount(left.barCount);
  const needed = "seconds" in need.needs ? sayMissing(need.needs.seconds) : sayBarCount(need.needs.bars);
  const missing = isInSeconds ? sayMissing(shortAfter) : sayBarCount(shortAfter);
  const isCut = before.milliseconds !== after.milliseconds;
  const there = isCut
    ? `${amount(before)} of rest, ${amount(after)} with the cuts`
    : `${amount(before)} of rest`;
  const asked = `${needed} needed (${need.why})`;
  switch (verdict) {
    case "kept":
      return `${where}: ${there}; ${asked}: enough.`;
    case "released":
      return `${where}: ${there}; ${asked}, and let go.`;
    case "short":
      return `${where}: ${there}; ${asked}: ${missing} short.`;
    case "short anyway":
      return `${where}: ${there}; ${asked}: ${missing} short, with or without cuts.`;
  }
}
