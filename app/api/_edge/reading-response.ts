import { privateJson } from "@/app/api/_edge/problem-response";
import type { AskedReading } from "@/lib/store/readings/ask-reading";

/** The pages of an edition with 200, or with 202 how far they are while they are being made: `{ progress }`, 0 to 1. */
export function readingResponse(asked: AskedReading): Response {
  return asked.state === "ready"
    ? privateJson(asked.reading)
    : privateJson({ progress: asked.progress }, 202);
}
