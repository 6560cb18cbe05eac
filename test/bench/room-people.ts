import { randomUUID } from "node:crypto";
import { hashToken } from "@/lib/store/auth/session";
import { database } from "@/lib/store/database";
import type { MemberRole } from "@/lib/store/who-may";

/** Someone with a session, in one room. */
export interface RoomGuest {
  readonly userId: string;
  readonly role: MemberRole;
  readonly cookie: string;
}

export interface FurnishedRoom {
  readonly pieceId: string;
  readonly guests: readonly RoomGuest[];
}

const threeOfThem = ["pianist", "soloist", "coach"] as const;

/** Pieces with members of their own, all of them signed in. Nobody is in two rooms. */
export async function bringRooms(
  count: number,
  roles: readonly MemberRole[] = threeOfThem,
): Promise<FurnishedRoom[]> {
  const rooms = Array.from({ length: count }, () => bringRoom(roles));
  const guests = rooms.flatMap((room) => room.guests);
  const expires = new Date(Date.now() + 24 * 60 * 60 * 1000);
  await database().user.createMany({
    data: guests.map(({ userId, role }) => ({
      id: userId,
      email: `${userId}@rooms.test`,
      name: role,
      passwordHash: "none",
    })),
  });
  await database().session.createMany({
    data: guests.map(({ userId, token }) => ({ userId, expires, tokenHash: hashToken(token) })),
  });
  await database().piece.createMany({
    data: rooms.map(({ pieceId }, index) => ({ id: pieceId, title: `Piece ${index}`, tempo: {} })),
  });
  await database().member.createMany({
    data: rooms.flatMap((room) =>
      room.guests.map(({ userId, role }) => ({ pieceId: room.pieceId, userId, role })),
    ),
  });
  return rooms;
}

function bringRoom(roles: readonly MemberRole[]) {
  return {
    pieceId: randomUUID(),
    guests: roles.map((role) => {
      const token = randomUUID();
      return { userId: randomUUID(), role, token, cookie: `next-auth.session-token=${token}` };
    }),
  };
}
