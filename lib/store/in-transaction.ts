import type { Prisma } from "@/generated/prisma/client";
import { failure, type Result } from "@/lib/score/result";
import { database } from "./database";
import type { StoreProblem } from "./store-problem";

/** Thrown only to make the database undo what a transaction did. */
class Undo extends Error {
  constructor(readonly problem: StoreProblem) {
    super(problem.kind);
  }
}

/** Does `work` in one transaction; nothing of it is stored when it ends in a problem. */
export async function inTransaction<T>(
  work: (tx: Prisma.TransactionClient) => Promise<Result<T, StoreProblem>>,
): Promise<Result<T, StoreProblem>> {
  try {
    return await database().$transaction(async (tx) => {
      const result = await work(tx);
      if (!result.ok) throw new Undo(result.problem);
      return result;
    });
  } catch (thrown) {
    if (thrown instanceof Undo) return failure(thrown.problem);
    throw thrown;
  }
}
