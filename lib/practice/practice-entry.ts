import { z } from "zod";
import { practiceTempoSchema } from "./practice-tempo";

/** Longer than a line in a diary. */
const longestNote = 500;

/** A tempo that was tried, and whether the passage held at it. */
export const triedTempoSchema = practiceTempoSchema.extend({
  /** False for a try that did not hold: the ladder goes one rung back. */
  held: z.boolean().default(true),
});

export type TriedTempo = z.infer<typeof triedTempoSchema>;

/** What a pianist logs of one passage. The device names the entry and the moment, so that one sent twice counts once. */
export const practiceEntrySchema = z
  .strictObject({
    entryId: z.uuid(),
    /** When it was played, by the device's clock. */
    at: z.iso.datetime(),
    /** Bars by index, both included. */
    fromBar: z.int().min(0),
    toBar: z.int().min(0),
    sourceHash: z.string().regex(/^[0-9a-f]{64}$/),
    tempo: triedTempoSchema,
    note: z.string().trim().max(longestNote, `A note has at most ${longestNote} characters.`).default(""),
  })
  .refine(({ fromBar, toBar }) => fromBar <= toBar, {
    message: "A passage ends after it begins.",
    path: ["toBar"],
  });

export type PracticeEntry = z.infer<typeof practiceEntrySchema>;

/** An entry of the log as it stands. */
export interface PracticeRecord {
  readonly id: string;
  readonly fromBar: number;
  readonly toBar: number;
  readonly sourceHash: string;
  readonly tempo: TriedTempo;
  readonly note: string;
  /** ISO 8601. */
  readonly at: string;
  /** Set when it was taken off; it can be brought back. */
  readonly removedAt: string | null;
}
