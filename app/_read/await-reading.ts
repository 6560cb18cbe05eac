import { z } from "zod";
import { type Reading, readingSchema } from "@/lib/engrave/pages/reading-plan";

const progressSchema = z.object({ progress: z.number().min(0).max(1) });
const sentenceSchema = z.object({ sentence: z.string() });
const askAgainMs = 700;
const notMade = "These pages could not be engraved. The edition is kept; try again in a minute.";

/** The server said why there are no pages; the message is for the reader. */
export class RefusedReading extends Error {}

async function ask(url: string, signal: AbortSignal): Promise<Reading | { progress: number }> {
  const response = await fetch(url, { signal });
  const body: unknown = await response.json().catch(() => null);
  if (response.status === 202) return progressSchema.parse(body);
  if (response.ok) return readingSchema.parse(body);
  const said = sentenceSchema.safeParse(body);
  throw new RefusedReading(said.success ? said.data.sentence : notMade);
}

/** Asks for pages and waits while they are being made. */
export async function awaitReading(
  url: string,
  signal: AbortSignal,
  onProgress: (progress: number) => void = () => {},
): Promise<Reading> {
  for (;;) {
    const answer = await ask(url, signal);
    if ("pages" in answer) return answer;
    onProgress(answer.progress);
    await new Promise((resolve) => setTimeout(resolve, askAgainMs));
    signal.throwIfAborted();
  }
}
