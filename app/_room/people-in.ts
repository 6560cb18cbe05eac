import type { Awareness } from "y-protocols/awareness";
import { z } from "zod";
import { recordIdSchema } from "@/lib/room/record-id";
import { type RoomMember, roomMemberSchema } from "@/lib/room/room-member";
import type { PresentPerson } from "./room-view";

const stateSchema = z.object({
  member: roomMemberSchema,
  view: z.object({
    barIndex: z.int().min(0).nullable().catch(null),
    editing: recordIdSchema.nullable().catch(null),
  }),
});

/** Who has the piece open, oneself first, each person once however many pages they have open. */
export function peopleIn(awareness: Awareness, me: RoomMember): PresentPerson[] {
  const people = new Map<string, PresentPerson>();
  for (const [clientId, state] of awareness.getStates()) {
    const parsed = stateSchema.safeParse(state);
    if (!parsed.success) continue;
    const isMe = clientId === awareness.clientID;
    const member = isMe ? me : parsed.data.member;
    if (people.has(member.userId) && !isMe) continue;
    people.set(member.userId, { ...member, ...parsed.data.view, isMe: member.userId === me.userId });
  }
  return [...people.values()].sort((a, b) => Number(b.isMe) - Number(a.isMe) || (a.name < b.name ? -1 : 1));
}
