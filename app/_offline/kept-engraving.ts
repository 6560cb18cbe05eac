import * as z from "zod";

const keySchema = z.string().regex(/^[\w-]+$/);
const systemsSchema = z.array(z.object({ index: z.int().min(0) })).max(5_000);
/** A score in one long column, or the pages of an edition: a key, and under it a picture for each system. */
const engravingSchema = z.union([
  z.object({ key: keySchema, systems: systemsSchema }),
  z
    .object({ key: keySchema, pages: z.array(z.object({ systems: systemsSchema })).max(1_000) })
    .transform(({ key, pages }) => ({ key, systems: pages.flatMap(({ systems }) => systems) })),
]);

/**
 * Addresses of the pictures of an engraving.
 *
 * @param address of the engraving itself. @param text what the server answered there.
 * @returns null when it is no engraving.
 */
export function listPictures(address: string, text: string): string[] | null {
  const engraving = engravingSchema.safeParse(parseJson(text));
  if (!engraving.success) return null;
  const { key, systems } = engraving.data;
  return systems.map(({ index }) => `${picturesBeside(address)}/${key}/${index}`);
}

/** Pictures of a piece lie in one place, those of its editions too. */
function picturesBeside(address: string): string {
  return address.replace(/\?.*$/, "").replace(/\/editions\/\d+\/reading$/, "/engraving");
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null; // Not one of our answers; the schema says so.
  }
}
