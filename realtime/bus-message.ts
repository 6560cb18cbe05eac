import { z } from "zod";
import { peopleNewsSchema } from "./people-news";

const schemas = {
  /** Where one log now ends; said by use cases outside the room server. */
  room_appended: z.object({ pieceId: z.string(), sequence: z.int(), node: z.string() }),
  /** Where several logs now end. */
  rooms_appended: z.object({ node: z.string(), entries: z.array(z.tuple([z.string(), z.int()])) }),
  /** Who is in which room of a node. */
  rooms_people: z.object({ node: z.string(), news: z.array(peopleNewsSchema) }),
  piece_changed: z.object({ pieceId: z.string(), what: z.string() }),
  session_ended: z.object({ userId: z.string(), tokenHash: z.string().optional() }),
  member_removed: z.object({ pieceId: z.string(), userId: z.string() }),
  room_started_anew: z.object({ pieceId: z.string(), epoch: z.int() }),
} as const;

type Channel = keyof typeof schemas;

export const busChannels = Object.keys(schemas) as readonly Channel[];

/** What comes over Postgres NOTIFY: hints only. What they hint at stands in the tables. */
export type BusMessage = { [C in Channel]: { channel: C } & z.infer<(typeof schemas)[C]> }[Channel];

/** Reads what came over a channel; null when it is none of ours. */
export function readBusMessage(channel: string, payload: string): BusMessage | null {
  if (!Object.hasOwn(schemas, channel)) return null;
  try {
    const parsed = schemas[channel as Channel].safeParse(JSON.parse(payload));
    // The channel decides which schema was used, so the two belong together.
    return parsed.success ? ({ channel, ...parsed.data } as BusMessage) : null;
  } catch {
    return null;
  }
}
