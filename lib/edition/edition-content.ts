import { z } from "zod";
import { comparePositions } from "@/lib/score/position";
import { canonicalJson } from "./canonical-json";
import { type CutTerms, cutTermsSchema, hashSchema } from "./cut-terms";
import { hashText } from "./hash-terms";
import { toPosition } from "./position-terms";
import { tempoTermsSchema } from "./tempo-terms";

/** Part id → what the part is for. */
export const partRolesSchema = z.record(
  z.string().min(1).max(200),
  z.enum(["solo", "reduction", "orchestra", "other"]),
);

/** Everything an edition consists of. Whatever is not in here may change without a new edition. */
export const editionContentSchema = z.strictObject({
  schema: z.literal(1),
  sourceHash: hashSchema,
  partRoles: partRolesSchema,
  /** In the order of the page. */
  cuts: z.array(cutTermsSchema),
  tempo: tempoTermsSchema,
});

export type EditionContent = z.infer<typeof editionContentSchema>;

/** The cuts in the order of the page, which is the order they are hashed in. */
export function sortCuts(cuts: readonly CutTerms[]): CutTerms[] {
  return [...cuts].sort(
    (a, b) =>
      comparePositions(toPosition(a.from), toPosition(b.from)) ||
      comparePositions(toPosition(a.to), toPosition(b.to)) ||
      // No agreed edition mixes sources. It settles the order of any two cuts that differ.
      Number(a.sourceHash > b.sourceHash) - Number(a.sourceHash < b.sourceHash),
  );
}

/** The text that is hashed and kept: canonical JSON with the cuts in the order of the page. */
export function writeEditionContent(content: EditionContent): string {
  return canonicalJson({ ...content, cuts: sortCuts(content.cuts) });
}

/** @throws Error if `text` was not written by `writeEditionContent`. */
export function readEditionContent(text: string): EditionContent {
  return editionContentSchema.parse(JSON.parse(text));
}

/** SHA-256, in lower-case hexadecimal, of the canonical text of `content`. */
export function hashEdition(content: EditionContent): string {
  return hashText(writeEditionContent(content));
}
