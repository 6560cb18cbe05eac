import { z } from "zod";

/** What the server found in a file: what it holds, or a sentence for everything that is wrong with it. */
export const lookedIntoSchema = z.discriminatedUnion("isWhole", [
  z.object({
    isWhole: z.literal(true),
    preview: z.object({
      title: z.string(),
      movement: z.string().nullable(),
      composer: z.string().nullable(),
      hash: z.string(),
      people: z.array(
        z.object({
          key: z.string(),
          name: z.string(),
          role: z.enum(["pianist", "soloist", "coach", "reader"]),
          hasLeft: z.boolean(),
        }),
      ),
      counts: z.object({
        sources: z.number(),
        proposals: z.number(),
        comments: z.number(),
        performances: z.number(),
      }),
      editions: z.array(
        z.object({
          number: z.number(),
          hash: z.string(),
          frozenAt: z.string(),
          approvedBy: z.array(z.string()),
        }),
      ),
    }),
  }),
  z.object({ isWhole: z.literal(false), faults: z.array(z.string()) }),
]);

export type LookedInto = z.infer<typeof lookedIntoSchema>;
export type PieceFile = Extract<LookedInto, { isWhole: true }>["preview"];

export const broughtSchema = z.object({ pieceId: z.string() });
