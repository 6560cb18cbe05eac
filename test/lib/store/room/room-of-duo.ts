import * as Y from "yjs";
import { findCommentsTouched } from "@/lib/room/comments-in-changes";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import type { MemberRole } from "@/lib/store/who-may";
import { put } from "@/test/lib/room/room-records";
import { type Duo, type Person, valued } from "@/test/lib/store/duo";

/** Writes in a duo's room as its members do: each record one entry of the stored log. */
export class RoomOfDuo {
  readonly doc = openRoomDoc();

  constructor(private readonly duo: Duo) {}

  async write<Name extends RoomMapName>(
    by: Person,
    role: MemberRole,
    map: Name,
    record: RoomRecords[Name],
  ): Promise<number> {
    const before = Y.encodeStateVector(this.doc);
    const standing = new Map(this.doc.getMap(map));
    put(this.doc, map, record, { ...by, role });
    const update = Y.encodeStateAsUpdate(this.doc, before);
    const { pieceId } = this.duo;
    const changed = [...this.doc.getMap(map)].filter(([key, after]) => standing.get(key) !== after);
    const comments = findCommentsTouched(
      changed.map(([key, after]) => ({ map, key, before: standing.get(key), after, isOvertaken: false })),
    );
    return valued(await appendRoomUpdate(by, { pieceId, epoch: 1, update, node: "test", comments })).sequence;
  }
}
