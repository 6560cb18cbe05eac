import { readClock } from "@/app/_ui/clock";
import { failure, type Result, success } from "@/lib/score/result";

/** Said under a field whose text is no time. */
export const clockProblem = "Write minutes and seconds, as in 8:52.";

/** A time as it is typed: null for an empty field, "wrong" for what is no time. */
export function readTypedClock(text: string): number | null | "wrong" {
  return text.trim() === "" ? null : (readClock(text) ?? "wrong");
}

/** Which of the two times cannot be read. */
export type WrongClock = "limit" | "real";

/**
 * What the form says, as the action takes it, or which of its times cannot be read.
 *
 * @param realSeconds what was kept before: a stopwatch is finer than what is typed, so the same second keeps it.
 */
export function readLog(
  form: FormData,
  realSeconds: number | null = null,
): Result<Record<string, unknown>, WrongClock> {
  const text = (name: string) => String(form.get(name) ?? "");
  const [limitSeconds, typed] = [readTypedClock(text("limit")), readTypedClock(text("real"))];
  if (limitSeconds === "wrong") return failure("limit");
  if (typed === "wrong") return failure("real");
  return success({
    ...{ kind: text("kind"), name: text("name"), on: text("on"), place: text("place") },
    ...{ startsAt: text("startsAt").slice(0, 5) || null, result: text("result"), remarks: text("remarks") },
    ...{ limitSeconds, realSeconds: finer(typed, realSeconds), editionNumber: Number(text("editionNumber")) },
  });
}

/** The finer of two times that read the same. */
export function finer(typed: number | null, kept: number | null): number | null {
  return kept !== null && typed === Math.round(kept) ? kept : typed;
}
