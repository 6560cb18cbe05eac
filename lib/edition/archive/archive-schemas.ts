import { z } from "zod";
import { hashSchema } from "../cut-terms";

/** As `Date.toISOString` writes it, so that a moment has one spelling. */
const momentSchema = z.iso.datetime({ precision: 3 });
const numberSchema = z.int().min(1).max(500);
/** A title, a name: as long as any text that is read from a source. */
const nameSchema = z.string().max(2_000);

/** One edition of the chain: all that is kept of it beside its content. */
export const editionRecordSchema = z.strictObject({
  schema: z.literal(1),
  number: numberSchema,
  /** SHA-256 of the content. */
  hash: hashSchema,
  /** The hash of the edition before; null for the first. */
  previousHash: hashSchema.nullable(),
  frozenAt: momentSchema,
  /** Who agreed, as what, when, and to which hash; under the name they had then. */
  approvals: z
    .array(
      z.strictObject({
        name: nameSchema,
        role: z.enum(["pianist", "soloist"]),
        at: momentSchema,
        hash: hashSchema,
      }),
    )
    .max(50),
});

/** What an exported edition holds, and the SHA-256 of every file of it but this one. */
export const manifestSchema = z.strictObject({
  schema: z.literal(1),
  kind: z.literal("performing edition"),
  piece: z.strictObject({
    title: nameSchema,
    movement: nameSchema.nullable(),
    composer: nameSchema.nullable(),
    soloInstrument: nameSchema.nullable(),
  }),
  edition: z.strictObject({ number: numberSchema, hash: hashSchema }),
  /** What engraved the edition's pages when it was exported. */
  rendererVersion: z.string().min(1).max(200),
  /** The uploaded files by their SHA-256, with the names they were uploaded under. */
  sources: z.array(z.strictObject({ hash: hashSchema, fileName: nameSchema })).max(500),
  /** In the order of their names. */
  entries: z
    .array(z.strictObject({ name: nameSchema, byteLength: z.int().min(0), sha256: hashSchema }))
    .max(2_000),
  /** SHA-256 of the canonical JSON of this object without its seal: one number that stands for the whole file. */
  seal: hashSchema,
});

export type ArchivedRecord = z.infer<typeof editionRecordSchema>;
export type ArchiveManifest = z.infer<typeof manifestSchema>;
