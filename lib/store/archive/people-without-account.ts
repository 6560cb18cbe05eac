import { randomUUID } from "node:crypto";
import type { Prisma } from "@/generated/prisma/client";
import { now } from "../clock";

/** No address: names under "invalid" are nobody's (RFC 2606), and one without a dot is not taken as an address here. */
const nowhere = "@invalid";

/** What stands for the address of somebody without an account: it is nobody's, and no form takes it. */
export const unusableEmail = () => `${randomUUID()}${nowhere}`;

/** Not in the form of a password hash: no password is the one that was hashed. */
export const noPassword = "";

/**
 * Rows for people who are names only: nobody can sign in as them, and nothing is sent to them.
 *
 * @param people their new ids and names.
 */
export async function addPeopleWithoutAccount(
  tx: Prisma.TransactionClient,
  people: readonly { readonly id: string; readonly name: string }[],
): Promise<void> {
  await tx.user.createMany({
    data: people.map(({ id, name }) => ({
      ...{ id, name, email: unusableEmail(), passwordHash: noPassword },
      ...{ wantsDigest: false, removedAt: now() },
    })),
  });
}
