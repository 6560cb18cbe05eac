import { z } from "zod";
import { comparePositions } from "@/lib/score/position";
import { breathTermsSchema } from "./breath-terms";
import { canonicalJson, type JsonValue } from "./canonical-json";
import { cueTermsSchema } from "./cue-terms";
import { type CutTerms, cutTermsSchema, hashSchema } from "./cut-terms";
import { hashText } from "./hash-terms";
import { type PositionTerms, toPosition } from "./position-terms";
import { remarkTermsSchema } from "./remark-terms";
import { rewriteTermsSchema } from "./rewrite-terms";
import { tempoTermsSchema } from "./tempo-terms";

/** Part id → what the part is for. */
export const partRolesSchema = z.record(
  z.string().min(1).max(200),
  z.enum(["solo", "reduction", "orchestra", "other"]),
);

/** As editions were frozen at first: breaths, cues, rewrites and printed comments were no part of them. */
export const contentV1Schema = z.strictObject({
  schema: z.literal(1),
  sourceHash: hashSchema,
  partRoles: partRolesSchema,
  /** In the order of the page. */
  cuts: z.array(cutTermsSchema),
  tempo: tempoTermsSchema,
});

/** Everything an edition consists of. Whatever is not in here may change without a new edition. */
export const editionContentSchema = contentV1Schema.extend({
  schema: z.literal(2),
  /** This and the lists that follow are in the order of the page too. */
  breaths: z.array(breathTermsSchema),
  cues: z.array(cueTermsSchema),
  rewrites: z.array(rewriteTermsSchema),
  /** Comments that their authors want printed. */
  remarks: z.array(remarkTermsSchema),
});

/** `schema` tells as what it was frozen; one of schema 1 has empty lists where it knew none. */
export type EditionContent = Omit<z.infer<typeof editionContentSchema>, "schema"> & {
  readonly schema: 1 | 2;
};

/** What an edition of schema 1 lacks. */
export const noMarks: Marks = {
  breaths: [],
  cues: [],
  rewrites: [],
  remarks: [],
};

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

/** The same content with every list in the order in which it is hashed, and each mark once. */
export function sortContent(content: EditionContent): EditionContent {
  return { ...content, cuts: sortCuts(content.cuts), ...sortMarks(content) };
}

export type Marks = Pick<EditionContent, "breaths" | "cues" | "rewrites" | "remarks">;

/** Each mark once, in the order of the page. */
export function sortMarks({ breaths, cues, rewrites, remarks }: Marks): Marks {
  return {
    breaths: inOrder(breaths, ({ at }) => [at]),
    cues: inOrder(cues, ({ at }) => [at]),
    rewrites: inOrder(rewrites, ({ from, to }) => [from, to]),
    remarks: inOrder(remarks, ({ from, to }) => [from, to]),
  };
}

/**
 * By place; what stands at the same place by its canonical text, so that one content has one order. What is written twice
 * alike, as two players mark the same breath, is one.
 */
function inOrder<Terms extends JsonValue>(
  list: readonly Terms[],
  placesOf: (terms: Terms) => readonly PositionTerms[],
): Terms[] {
  const comparePlaces = (a: Terms, b: Terms) =>
    placesOf(a).reduce((order, place, index) => {
      const other = placesOf(b)[index] ?? place;
      return order || comparePositions(toPosition(place), toPosition(other));
    }, 0);
  const compareTexts = (a: string, b: string) => Number(a > b) - Number(a < b);
  const once = new Map(list.map((terms) => [canonicalJson(terms), terms]));
  return [...once]
    .sort(([textA, a], [textB, b]) => comparePlaces(a, b) || compareTexts(textA, textB))
    .map(([, terms]) => terms);
}

/** The text that is hashed and kept: canonical JSON with every list in the order of the page. */
export function writeEditionContent(content: EditionContent): string {
  const { breaths, cues, rewrites, remarks, ...first } = sortContent(content);
  return canonicalJson(content.schema === 1 ? first : { ...first, breaths, cues, rewrites, remarks });
}

/** A content as it was frozen, of either schema. */
export const frozenContentSchema = z
  .discriminatedUnion("schema", [contentV1Schema, editionContentSchema])
  .transform((content): EditionContent => (content.schema === 1 ? { ...content, ...noMarks } : content));

/** @throws Error if `text` was not written by `writeEditionContent`. */
export function readEditionContent(text: string): EditionContent {
  return frozenContentSchema.parse(JSON.parse(text));
}

/** Whether two editions decide the same, whatever schema each was frozen as. */
export function isSameEdition(a: EditionContent, b: EditionContent): boolean {
  return hashEdition({ ...a, schema: 2 }) === hashEdition({ ...b, schema: 2 });
}

/** SHA-256, in lower-case hexadecimal, of the canonical text of `content`. */
export function hashEdition(content: EditionContent): string {
  return hashText(writeEditionContent(content));
}
