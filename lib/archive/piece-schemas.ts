import { z } from "zod";
import { breathPreferencesSchema } from "@/lib/breath/breath-preferences-schema";
import { hashSchema } from "@/lib/edition/cut-terms";
import { partRolesSchema } from "@/lib/edition/edition-content";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { archivedRoleSchema, lineSchema, momentSchema, personKeySchema } from "./archive-fields";

/** Somebody who belongs or belonged to the piece, under the name they had. */
export const archivedPersonSchema = z.strictObject({
  key: personKeySchema,
  name: lineSchema.min(1),
  role: archivedRoleSchema,
  joinedAt: momentSchema,
  /** When they left or were removed; null for who belongs to it. */
  leftAt: momentSchema.nullable(),
  /** A soloist's own numbers; null while those for the instrument hold. */
  breath: breathPreferencesSchema.nullable(),
});

/** An uploaded file; its bytes stand in sources/ under its SHA-256. */
export const archivedSourceSchema = z.strictObject({
  kind: z.enum(["solo and reduction", "full score"]),
  hash: hashSchema,
  fileName: lineSchema,
  /** Part id → what it is for. */
  partRoles: partRolesSchema,
  uploadedBy: personKeySchema,
  createdAt: momentSchema,
});

/** A bar that begins a page because a player decided so; with `removedAt` when that was taken back. */
export const archivedPageBreakSchema = z.strictObject({
  reader: z.enum(["pianist", "soloist"]),
  paper: z.string().max(100),
  sourceHash: hashSchema,
  barIndex: z.int().min(0).max(100_000),
  pinnedBy: personKeySchema,
  createdAt: momentSchema,
  removedAt: momentSchema.nullable(),
});

const pieceFields = {
  title: lineSchema,
  movement: lineSchema.nullable(),
  composer: lineSchema.nullable(),
  soloInstrument: lineSchema.nullable(),
  /** The occasion that it was branched off for, such as "Recital"; null for a piece of its own. */
  branchName: lineSchema.nullable(),
  limitSeconds: z.int().min(1).max(1_000_000).nullable(),
  longTuttiBars: z.int().min(0).max(100_000),
  tempo: tempoTermsSchema,
  createdAt: momentSchema,
  people: z.array(archivedPersonSchema).min(1).max(500),
  sources: z.array(archivedSourceSchema).min(1).max(500),
  pageBreaks: z.array(archivedPageBreakSchema).max(5_000),
  editionCount: z.int().min(0).max(500),
};

/** piece.json: what the piece is, who is in it, and the SHA-256 of every other file but manifest.json. */
export const archivedPieceSchema = z.strictObject({
  schema: z.literal(1),
  ...pieceFields,
  files: z.record(z.string().max(300), hashSchema),
  /** SHA-256 of the canonical JSON of this object without `hash`: it stands for the whole piece. */
  hash: hashSchema,
});

/** What was packed, in the order of the names. */
export const pieceManifestSchema = z.strictObject({
  schema: z.literal(1),
  kind: z.literal("piece"),
  title: lineSchema,
  /** That of piece.json. */
  hash: hashSchema,
  entries: z
    .array(z.strictObject({ name: z.string().max(300), byteLength: z.int().min(0), sha256: hashSchema }))
    .max(2_000),
  /** SHA-256 of the canonical JSON of this object without its seal. */
  seal: hashSchema,
});

export type ArchivedPerson = z.infer<typeof archivedPersonSchema>;
export type ArchivedPieceFile = z.infer<typeof archivedPieceSchema>;
export type PieceManifest = z.infer<typeof pieceManifestSchema>;
