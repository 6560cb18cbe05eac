import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { z } from "zod";
import { recordIdSchema } from "@/lib/room/record-id";
import type { RoomMember } from "@/lib/room/room-member";

/** What a person says about what they are looking at. */
export const presenceViewSchema = z.object({
  /** The bar at the top of their page. */
  barIndex: z.int().min(0).max(1_000_000).nullable().catch(null),
  /** The record they are writing in. */
  editing: recordIdSchema.nullable().catch(null),
});

export type PresenceView = z.infer<typeof presenceViewSchema>;

/** One person in a room as others see them. `member` is set by the server. */
export interface PresenceState {
  readonly member: RoomMember;
  readonly view: PresenceView;
}

/** One client's entry of an awareness update (y-protocols): null means gone. */
export interface PresenceEntry {
  readonly clientId: number;
  readonly clock: number;
  readonly view: PresenceView | null;
}

const mostEntries = 256;

/** Reads an awareness update. Whatever it says about who someone is, is left out. Null when it is not one. */
export function readPresence(update: Uint8Array): PresenceEntry[] | null {
  try {
    const decoder = decoding.createDecoder(update);
    const count = decoding.readVarUint(decoder);
    if (count > mostEntries) return null;
    const entries = Array.from({ length: count }, () => readEntry(decoder));
    return decoding.hasContent(decoder) ? null : entries;
  } catch {
    return null;
  }
}

function readEntry(decoder: decoding.Decoder): PresenceEntry {
  const clientId = decoding.readVarUint(decoder);
  const clock = decoding.readVarUint(decoder);
  const state: unknown = JSON.parse(decoding.readVarString(decoder));
  return { clientId, clock, view: state === null ? null : readView(state) };
}

function readView(state: unknown): PresenceView {
  const parsed = z.object({ view: presenceViewSchema }).safeParse(state);
  return parsed.success ? parsed.data.view : { barIndex: null, editing: null };
}

/** Writes an awareness update; a null state takes the client away. */
export function writePresenceEntries(
  entries: readonly { clientId: number; clock: number; state: PresenceState | null }[],
): Uint8Array {
  return encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, entries.length);
    for (const { clientId, clock, state } of entries) {
      encoding.writeVarUint(encoder, clientId);
      encoding.writeVarUint(encoder, clock);
      encoding.writeVarString(encoder, JSON.stringify(state));
    }
  });
}
