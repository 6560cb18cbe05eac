import { z } from "zod";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import type { EditHistory } from "@/lib/rewrites/editing/edit-history";

/** Steps that are kept over a reload; those before them cannot be undone any more then. */
const mostStates = 30;

const draftSchema = z
  .strictObject({
    schema: z.literal(1),
    states: z.array(rewriteTermsSchema).min(1).max(mostStates),
    at: z.int().min(0),
    words: z.string().max(200),
  })
  .refine(({ states, at }) => at < states.length);

/** What was written and is not kept yet. */
export interface Draft {
  readonly history: EditHistory;
  readonly words: string;
}

/** One draft for some bars of one file of a piece. */
export interface DraftPlace {
  readonly pieceId: string;
  readonly sourceHash: string;
  readonly fromBar: number;
  readonly toBar: number;
}

const nameOf = ({ pieceId, sourceHash, fromBar, toBar }: DraftPlace): string =>
  `colla.rewrite-draft ${pieceId} ${sourceHash} ${fromBar}-${toBar}`;

/** Null when there is none, or none that can be read. */
export function readDraft(storage: Pick<Storage, "getItem">, place: DraftPlace): Draft | null {
  const text = storage.getItem(nameOf(place));
  if (text === null) return null;
  const read = draftSchema.safeParse(parse(text));
  if (!read.success) return null;
  const { states, at, words } = read.data;
  return { history: { states, at }, words };
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** A storage that is full keeps the former draft; what is on the screen stays there. */
export function writeDraft(
  storage: Pick<Storage, "setItem">,
  place: DraftPlace,
  { history: { states, at }, words }: Draft,
): void {
  const first = Math.max(0, Math.min(at, states.length - mostStates));
  const kept = { schema: 1, states: states.slice(first, first + mostStates), at: at - first, words };
  try {
    storage.setItem(nameOf(place), JSON.stringify(kept));
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
  }
}

export function forgetDraft(storage: Pick<Storage, "removeItem">, place: DraftPlace): void {
  storage.removeItem(nameOf(place));
}
