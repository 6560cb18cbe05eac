import { z } from "zod";
import { roomMemberSchema } from "@/lib/room/room-member";
import { presenceViewSchema } from "./presence-state";

const piece = z.string();
const client = z.int().min(0);

/**
 * One thing that a node tells the others about the people in a room of its own.
 *
 * | is | means |
 * |---|---|
 * | open | somebody is in this room here; with `asks`: tell me who is in it at yours |
 * | here | this page is open, and looks there; repeated while it lasts |
 * | gone | this page is closed |
 * | left | nobody is in this room here any more |
 */
export const peopleNewsSchema = z.discriminatedUnion("is", [
  z.object({ is: z.literal("open"), piece, asks: z.boolean() }),
  z.object({ is: z.literal("here"), piece, client, member: roomMemberSchema, view: presenceViewSchema }),
  z.object({ is: z.literal("gone"), piece, client }),
  z.object({ is: z.literal("left"), piece }),
]);

export type PeopleNews = z.infer<typeof peopleNewsSchema>;
