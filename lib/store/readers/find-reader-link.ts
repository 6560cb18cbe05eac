import { failure, type Result, success } from "@/lib/score/result";
import { refuseAfterTries, takeTry } from "../auth/rate-limit";
import { hashToken } from "../auth/session";
import { now } from "../clock";
import { database } from "../database";
import type { StoreProblem } from "../store-problem";

/** What a reader's link opens. For the store: nothing of it goes to the reader as it is. */
export interface FoundReaderLink {
  readonly id: string;
  readonly pieceId: string;
  readonly editionId: string;
}

/** As many letters as a token has, and those of base64url. */
const tokenForm = /^[\w-]{43}$/;

/**
 * The link behind a token that works now.
 *
 * @param address network address of the client. When it has tried too many that open nothing, it is refused whatever it shows.
 * @returns "not-found" alike for a link that never was and one that was taken back or has run out.
 */
export async function findReaderLink(
  token: string,
  address: string,
): Promise<Result<FoundReaderLink, StoreProblem>> {
  const limit = await refuseAfterTries("wrongReaderLinkFromAddress", address);
  if (!limit.ok) return limit;
  const link = tokenForm.test(token) ? await findWorking(token) : null;
  if (link) return success(link);
  const counted = await takeTry("wrongReaderLinkFromAddress", address);
  return counted.ok ? failure({ kind: "not-found" }) : counted;
}

function findWorking(token: string): Promise<FoundReaderLink | null> {
  return database().readerLink.findFirst({
    where: {
      tokenHash: hashToken(token),
      revokedAt: null,
      expiresAt: { gt: now() },
      // A piece that was deleted is not read either, until it is brought back.
      piece: { deletedAt: null },
    },
    select: { id: true, pieceId: true, editionId: true },
  });
}
