import { failure, type Result, success } from "@/lib/score/result";
import { readTypedClock } from "../../_performances/read-log";

/** The head of a programme as the actions take it. */
export interface ProgrammeHeadInput {
  readonly kind: string;
  readonly name: string;
  readonly on: string;
  readonly startsAt: string | null;
  readonly place: string;
  readonly limitSeconds: number | null;
  readonly stopsBetween: boolean;
  readonly remarks: string;
}

/** What the form says about the occasion, or that its limit is no time. */
export function readHead(form: FormData): Result<ProgrammeHeadInput, "limit"> {
  const text = (name: string) => String(form.get(name) ?? "");
  const limitSeconds = readTypedClock(text("limit"));
  if (limitSeconds === "wrong") return failure("limit");
  return success({
    ...{ kind: text("kind"), name: text("name"), on: text("on"), place: text("place"), limitSeconds },
    startsAt: text("startsAt").slice(0, 5) || null,
    stopsBetween: text("clock") === "stops",
    remarks: text("remarks"),
  });
}
