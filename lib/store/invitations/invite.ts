import { randomBytes } from "node:crypto";
import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { takeTry } from "../auth/rate-limit";
import { hashToken } from "../auth/session";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import { readPlayers } from "../pieces/read-piece";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { isPlayer } from "../who-may";

const inviteSchema = z.object({ role: z.enum(["pianist", "soloist", "coach", "reader"]) });

/** An invitation is good for two weeks: long enough for a colleague on tour, short enough for a lost link. */
export const invitationDays = 14;

export interface NewInvitation {
  readonly id: string;
  /** For the link `/invitation/<token>`; shown once, only its hash is stored. */
  readonly token: string;
  readonly role: z.infer<typeof inviteSchema>["role"];
  readonly expiresAt: Date;
}

/** Makes a link by which one person can join a piece once. A player's place must be free for it. */
export async function invite(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<NewInvitation, StoreProblem>> {
  const asked = parseInput(inviteSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "invite");
  if (!membership.ok) return membership;
  const limit = await takeTry("invitationByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const { role } = asked.value;
  return inPiece(viewer, pieceId, "invite", async (work) => {
    const players = await readPlayers(pieceId, work.tx);
    const sitting = players.find((player) => player.role === role);
    if (isPlayer(role) && sitting)
      return failure({ kind: "conflict", sentence: `${sitting.name} is the ${role} of this piece already.` });
    const token = randomBytes(32).toString("base64url");
    const createdAt = now();
    const expiresAt = new Date(createdAt.getTime() + invitationDays * 24 * 60 * 60 * 1000);
    const { id } = await work.tx.invitation.create({
      data: { pieceId, role, invitedById: viewer.userId, tokenHash: hashToken(token), createdAt, expiresAt },
    });
    await noteChange(work, { what: "invitation made", about: { invitationId: id, role }, change: "members" });
    return success({ id, token, role, expiresAt });
  });
}
