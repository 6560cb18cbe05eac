import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import type { MemberRole } from "../who-may";

/** Someone who asks for the room of a piece. */
export interface RoomCaller {
  /** `hashToken` of the session cookie's token. */
  readonly tokenHash: string;
  readonly pieceId: string;
}

/** A person in the room of a piece, as their session and their membership say. */
export interface RoomPerson {
  readonly userId: string;
  readonly name: string;
  readonly role: MemberRole;
}

export type RoomAdmissionProblem =
  /** There is no such session, or it is over. */
  | { readonly kind: "signed-out" }
  /** There is no such piece, or the person does not belong to it. */
  | { readonly kind: "not-found" };

export type RoomAdmission = Result<RoomPerson, RoomAdmissionProblem>;

interface Row {
  userId: string | null;
  name: string | null;
  role: MemberRole | null;
}

/**
 * Whom sessions let into the rooms of pieces, in one query: asked at the door, and again whenever a session or a
 * membership may have ended.
 *
 * @returns in the order of `callers`.
 */
export async function admitToRooms(callers: readonly RoomCaller[]): Promise<RoomAdmission[]> {
  const rows = await database().$queryRaw<Row[]>`
    SELECT "User"."id" AS "userId", "User"."name", "Member"."role"::text AS "role"
    FROM unnest(
      ${callers.map(({ tokenHash }) => tokenHash)}::text[],
      ${callers.map(({ pieceId }) => pieceId)}::text[]
    ) WITH ORDINALITY AS caller("tokenHash", "pieceId", "place")
    LEFT JOIN "Session" ON "Session"."tokenHash" = caller."tokenHash" AND "Session"."expires" > now()
    LEFT JOIN "User" ON "User"."id" = "Session"."userId"
    LEFT JOIN "Member" ON "Member"."pieceId" = caller."pieceId" AND "Member"."userId" = "User"."id"
      AND "Member"."removedAt" IS NULL
      AND EXISTS (SELECT 1 FROM "Piece" WHERE "id" = caller."pieceId" AND "deletedAt" IS NULL)
    ORDER BY caller."place"`;
  return rows.map(toAdmission);
}

function toAdmission({ userId, name, role }: Row): RoomAdmission {
  if (userId === null || name === null) return failure({ kind: "signed-out" });
  return role === null ? failure({ kind: "not-found" }) : success({ userId, name, role });
}
