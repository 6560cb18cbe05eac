import { readClock } from "@/app/_ui/clock";
import { failure, type Result, success } from "@/lib/score/result";

/** Said under a field whose text is no time. */
export const clockProblem = "Write minutes and seconds, as in 8:52.";

/** A time as it is typed: null for an empty field, "wrong" for what is no time. */
export function readTypedClock(text: string): number | null | "wrong" {
  return text.trim() === "" ? null : (readClock(text) ?? "wrong");
}

/** What the form says, as the action takes it, or which of its times cannot be read. */
export function readLog(form: FormData): Result<Record<string, unknown>, "limit" | "real"> {
  const text = (name: string) => String(form.get(name) ?? "");
  const [limitSeconds, realSeconds] = [readTypedClock(text("limit")), readTypedClock(text("real"))];
  if (limitSeconds === "wrong") return failure("limit");
  if (realSeconds === "wrong") return failure("real");
  return success({
    ...{ kind: text("kind"), name: text("name"), on: text("on"), place: text("place") },
    ...{ limitSeconds, realSeconds, remarks: text("remarks"), editionNumber: Number(text("editionNumber")) },
  });
}
