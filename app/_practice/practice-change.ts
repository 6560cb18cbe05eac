import { z } from "zod";
import { practiceEntrySchema } from "@/lib/practice/practice-entry";

const every = {
  version: z.literal(1),
  changeId: z.uuid(),
  pieceId: z.string().min(1).max(100),
  /** By the device's clock, in milliseconds since 1970: they are sent in this order. */
  madeAt: z.int().positive(),
  /** "bars 112–115", for what is said about it. */
  label: z.string().max(100),
  /** The server has it, and the page that is shown may not yet. */
  isSent: z.boolean(),
  /** Why the server refused it; null while it has not. */
  refusal: z.string().nullable(),
};

/** What a pianist did to the log of a piece, as it is kept on the device until the server has it. */
export const practiceChangeSchema = z.discriminatedUnion("kind", [
  z.strictObject({ ...every, kind: z.literal("log"), entry: practiceEntrySchema }),
  z.strictObject({ ...every, kind: z.literal("take off"), entryId: z.string().max(100) }),
  z.strictObject({ ...every, kind: z.literal("bring back"), entryId: z.string().max(100) }),
]);

export type PracticeChange = z.infer<typeof practiceChangeSchema>;

/** The entry that a change is about. */
export function entryOf(change: PracticeChange): string {
  return change.kind === "log" ? change.entry.entryId : change.entryId;
}
