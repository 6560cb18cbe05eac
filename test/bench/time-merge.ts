import { randomUUID } from "node:crypto";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { database } from "@/lib/store/database";
import { takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import { loadRoom } from "@/realtime/persist";
import { bringRooms } from "./room-people";

/** How long something took, and the longest time in which nothing else could be done meanwhile; milliseconds. */
interface Timed {
  readonly ms: number;
  readonly longestHoldMs: number;
}

/** A room with a long log: loaded from its rows, merged into a snapshot, and loaded from that. */
export async function timeMerge(entries: number): Promise<Record<string, string | number>> {
  const [room] = await bringRooms(1, ["pianist"]);
  const userId = room?.guests[0]?.userId;
  if (!room || !userId) throw new RangeError("no room was made");
  await fillLog(room.pieceId, userId, entries);
  const fromRows = await time(() => loadRoom(room.pieceId));
  const merged = await time(() => takeRoomSnapshot(room.pieceId));
  const fromSnapshot = await time(() => loadRoom(room.pieceId));
  return {
    "crash at": `none: a log of ${entries}`,
    "snapshot ms": merged.ms,
    "longest hold ms": merged.longestHoldMs,
    "load from rows ms": fromRows.ms,
    "its longest hold ms": fromRows.longestHoldMs,
    "load from snapshot ms": fromSnapshot.ms,
  };
}

/** Comments of about 200 bytes, each reworded three times on average. */
async function fillLog(pieceId: string, userId: string, entries: number): Promise<void> {
  const doc = openRoomDoc();
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  const ids = Array.from({ length: Math.ceil(entries / 4) }, () => randomUUID());
  for (let index = 0; index < entries; index += 1) {
    const id = ids[index % ids.length] ?? "";
    const about = {
      kind: "span",
      from: { barIndex: index, offset: "0" },
      to: { barIndex: index, offset: "1/2" },
    };
    const text = `Softer here, and wait for the breath: ${index}`;
    doc
      .getMap("comments")
      .set(id, { id, authorId: userId, createdAt: "2026-11-25T08:00:00.000Z", text, about });
  }
  const rows = updates.map((update, index) => ({
    ...{ pieceId, epoch: 1, sequence: index + 1, userId },
    update: Buffer.from(update),
  }));
  for (let start = 0; start < rows.length; start += 2_000)
    await database().roomUpdate.createMany({ data: rows.slice(start, start + 2_000) });
  await database().piece.update({ where: { id: pieceId }, data: { roomSequence: entries } });
}

async function time(work: () => Promise<unknown>): Promise<Timed> {
  const delays = monitorEventLoopDelay({ resolution: 1 });
  const start = performance.now();
  delays.enable();
  await work();
  delays.disable();
  return { ms: Math.round(performance.now() - start), longestHoldMs: Math.round(delays.max / 1e6) };
}
