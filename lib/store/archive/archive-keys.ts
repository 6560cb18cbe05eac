import { z } from "zod";
import { personKeySchema } from "@/lib/archive/archive-fields";

/** What `Member.archivedAs` holds: who a member was in the archive that the piece came in from. */
export const archivedAsSchema = z.strictObject({
  key: personKeySchema,
  name: z.string(),
  leftAt: z.iso.datetime().nullable(),
  /** Whether somebody with an account said that they are this person. */
  isClaimed: z.boolean(),
});

export type ArchivedAs = z.infer<typeof archivedAsSchema>;

/** Ids of rows ↔ keys of an archive, both ways the same table. */
export interface ArchiveKeys {
  readonly people: ReadonlyMap<string, string>;
  readonly proposals: ReadonlyMap<string, string>;
  /** Versions of rewrites that are told or asked about. */
  readonly rewrites: ReadonlyMap<string, string>;
  readonly needs: ReadonlyMap<string, string>;
  readonly performances: ReadonlyMap<string, string>;
}

/** @throws Error for what is not in the table: then the rows of a piece do not belong together. */
export function keyFor(table: ReadonlyMap<string, string>, id: string): string {
  const key = table.get(id);
  if (key === undefined) throw new Error(`nothing stands for ${id}`);
  return key;
}

/**
 * The particulars of an entry of the trail with ids in the place of keys, or keys in the place of ids: what stands in
 * fields called "…Id", and what a counter-proposal replaced. What names something that is in no archive, such as an
 * invitation, is left out.
 */
export function withOtherKeys<Value>(
  about: Readonly<Record<string, Value>>,
  { people, proposals, rewrites, needs, performances }: ArchiveKeys,
): Record<string, Value | string> {
  const entries = Object.entries(about).flatMap(([name, value]): [string, Value | string][] => {
    if (!(name.endsWith("Id") || name === "supersedes") || typeof value !== "string") return [[name, value]];
    const other = [people, proposals, rewrites, needs, performances].flatMap((keys) => keys.get(value) ?? []);
    return other[0] === undefined ? [] : [[name, other[0]]];
  });
  return Object.fromEntries(entries);
}

/** A record of the room in the same way: its writer, and the proposal that it is about. */
export function recordWithOtherKeys<Record extends object>(
  record: Record,
  { people, proposals }: Pick<ArchiveKeys, "people" | "proposals">,
): Record {
  const { authorId, byId, about } = record as {
    authorId?: string;
    byId?: string;
    about?: { proposalId?: string };
  };
  return {
    ...record,
    ...(authorId === undefined ? {} : { authorId: keyFor(people, authorId) }),
    ...(byId === undefined ? {} : { byId: keyFor(people, byId) }),
    ...(about?.proposalId === undefined
      ? {}
      : { about: { ...about, proposalId: proposals.get(about.proposalId) ?? about.proposalId } }),
  };
}
