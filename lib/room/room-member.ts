import { z } from "zod";

export const roomRoles = ["pianist", "soloist", "coach", "reader"] as const;

/** Who a person is in a room: taken from the session and the membership, never from what a client says. */
export const roomMemberSchema = z.strictObject({
  userId: z.string().min(1),
  name: z.string(),
  role: z.enum(roomRoles),
});

export type RoomMember = z.infer<typeof roomMemberSchema>;
export type RoomRole = RoomMember["role"];

/** Players and coaches write comments, answer them and resolve them. */
export function canComment(role: RoomRole): boolean {
  return role !== "reader";
}

/** Only the two players mark breaths. */
export function canMarkBreaths(role: RoomRole): boolean {
  return role === "pianist" || role === "soloist";
}

/** Only the two players write cues over the reduction. */
export function canWriteCues(role: RoomRole): boolean {
  return role === "pianist" || role === "soloist";
}

/** Only the two players pencil cuts in, move them and rub them out. */
export function canPencil(role: RoomRole): boolean {
  return role === "pianist" || role === "soloist";
}

/** Readers see the piece and its editions, and nothing of what the others write to each other. */
export function canReadDiscussion(role: RoomRole): boolean {
  return role !== "reader";
}
