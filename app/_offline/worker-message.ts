import * as z from "zod";

const id = z.string().regex(/^[\w-]{1,64}$/);
/** A path of this server. */
const address = z
  .string()
  .max(500)
  .regex(/^\/(?![/\\])/);

/** What a page tells the worker. */
export const workerMessageSchema = z.discriminatedUnion("kind", [
  /** Whose pages these are: what is kept for anybody else goes. */
  z.object({ kind: z.literal("here"), userId: id }),
  z.object({
    kind: z.literal("keep"),
    userId: id,
    /** The piece that is open; null on pages that are about all pieces. */
    pieceId: id.nullable(),
    /** The edition of it that is read page by page; null for the desk. */
    edition: z.int().min(1).nullable().default(null),
    /** The programme whose page is open. */
    programme: id.nullable().default(null),
    pages: z.array(address).max(12),
    /** Scripts, styles and fonts that the open page has loaded. */
    files: z.array(address).max(400),
    /** Where the engravings lie that the page shows (`/api/pieces/…/engraving?…`, `/api/pieces/…/editions/…/reading?…`). */
    engravings: z.array(address).max(6),
  }),
  z.object({ kind: z.literal("forget-piece"), pieceId: id }),
  z.object({ kind: z.literal("forget-all") }),
]);

export type WorkerMessage = z.infer<typeof workerMessageSchema>;
export type KeepMessage = Extract<WorkerMessage, { kind: "keep" }>;
