import type { Prisma } from "@/generated/prisma/client";

/** The duo's own words on how to sound like an instrument at the piano. */
export interface CueHintRecord {
  /** As its cue names it: "Fl.", "Cor.". */
  readonly instrument: string;
  /** Empty: back to the usual words. */
  readonly text: string;
  readonly authorName: string;
  /** ISO 8601. */
  readonly at: string;
}

export const cueHintParts = { author: { select: { name: true } } } as const satisfies Prisma.CueHintInclude;

export function toCueHintRecord(
  row: Prisma.CueHintGetPayload<{ include: typeof cueHintParts }>,
): CueHintRecord {
  const { instrument, text, author, at } = row;
  return { instrument, text, authorName: author.name, at: at.toISOString() };
}
