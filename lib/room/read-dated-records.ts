import type { DatedRecord } from "./dated-record";
import { replayRoomInTurns } from "./history/replay-room";
import type { RoomHistoryEntry } from "./history/room-history-entry";
import type { RoomMapName } from "./room-keys";

/**
 * Every record as it stands at the end of a log, deleted ones among them, with the moment in which it was last written:
 * by map, then by key.
 *
 * @param entries the whole log, in order, of every epoch.
 * @throws Error if the log has a gap.
 */
export async function readDatedRecords(entries: readonly RoomHistoryEntry[]): Promise<DatedRecord[]> {
  const last = new Map<string, { readonly key: string; readonly dated: DatedRecord }>();
  for (const { map, key, after, at, isOvertaken } of await replayRoomInTurns(entries)) {
    if (isOvertaken) continue;
    const place = `${map} ${key}`;
    // That map and record belong together is made sure by the replay.
    if (after === null) last.delete(place);
    else last.set(place, { key, dated: { map, record: after, at } as DatedRecord });
  }
  const placeOf = (map: RoomMapName, key: string) => `${map} ${key}`;
  return [...last.values()]
    .sort((a, b) => compareText(placeOf(a.dated.map, a.key), placeOf(b.dated.map, b.key)))
    .map(({ dated }) => dated);
}

const compareText = (a: string, b: string) => Number(a > b) - Number(a < b);
