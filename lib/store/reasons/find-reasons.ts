import { type CutReasons, cutReasonsSchema } from "@/lib/edition/cut-reasons";
import { type CutTerms, cutTermsSchema } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import { restNeedTermsSchema } from "@/lib/edition/rest-need-terms";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { database } from "../database";
import { findMainSource } from "../pieces/score-of-source";
import type { FoundReasons, ReasonsQuestion } from "./reasons-message";
import { ReasonsThread } from "./reasons-thread";

// Kept on the global object, as the database client is: a second copy of this module must find the same thread.
const holder = globalThis as typeof globalThis & { collaReasons?: ReasonsThread };

/** A proposal does not wait longer for its reasons. The choice is ours. */
const patienceMs = 15_000;

interface ReasonsWanted {
  readonly cuts: readonly CutTerms[];
  /** The number under which a cut replaces what is agreed; null for new cuts. */
  readonly number: number | null;
  /** What is agreed where they are proposed, when that is not what is agreed in the piece at this moment. */
  readonly agreed?: readonly CutTerms[];
}

/**
 * What speaks for and against cuts that are about to be proposed, in their order. Whatever goes wrong or takes too long,
 * a proposal is not held up by it: it has no reasons then. To be called before a piece is held.
 */
export async function findReasons(pieceId: string, wanted: ReasonsWanted): Promise<(CutReasons | null)[]> {
  const { cuts } = wanted;
  try {
    const found = await withPatience(askThread(pieceId, wanted));
    return cuts.map((_, index) => cutReasonsSchema.nullable().parse(found[index] ?? null));
  } catch (error) {
    // The edge for work that nobody is told of: what went wrong is logged here, once.
    console.error(`no reasons for a proposal of piece ${pieceId}:`, error);
    return cuts.map(() => null);
  }
}

async function askThread(pieceId: string, { cuts, number, agreed }: ReasonsWanted): Promise<FoundReasons> {
  const [{ tempo }, source] = await Promise.all([
    database().piece.findUniqueOrThrow({ where: { id: pieceId }, select: { tempo: true } }),
    findMainSource(pieceId),
  ]);
  const terms = { partRoles: source.partRoles, tempo: tempoTermsSchema.parse(tempo) };
  const key = hashTerms({ source: source.hash, ...terms });
  const question: ReasonsQuestion = {
    cuts,
    agreed: agreed ?? (await findAgreed(pieceId, source.hash, number)),
    needs: await findNeeds(pieceId, source.hash),
  };
  return reasonsThread().ask(key, question, async () => {
    const { bytes } = await database().sourceBytes.findUniqueOrThrow({ where: { sourceId: source.id } });
    return { bytes, ...terms };
  });
}

function reasonsThread(): ReasonsThread {
  if (!holder.collaReasons || holder.collaReasons.isSpent) holder.collaReasons = new ReasonsThread();
  return holder.collaReasons;
}

async function findAgreed(pieceId: string, sourceHash: string, number: number | null): Promise<CutTerms[]> {
  const rows = await database().proposal.findMany({
    where: { pieceId, kind: "cut", state: "agreed", NOT: { number: number ?? 0 } },
    select: { terms: true },
  });
  return rows
    .map(({ terms }) => cutTermsSchema.parse(terms))
    .filter((terms) => terms.sourceHash === sourceHash);
}

async function findNeeds(pieceId: string, sourceHash: string): Promise<ReasonsQuestion["needs"]> {
  const rows = await database().restNeed.findMany({
    where: { pieceId, removedAt: null },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
  });
  return rows
    .map(({ id, terms, releasedById }) => ({
      id,
      terms: restNeedTermsSchema.parse(terms),
      releasedBy: releasedById,
    }))
    .filter(({ terms }) => terms.sourceHash === sourceHash);
}

/** The thread goes on meanwhile, so that the next question finds the piece heard. */
async function withPatience<T>(work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error("it took too long")), patienceMs);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
