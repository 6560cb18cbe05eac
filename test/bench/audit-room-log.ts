import * as Y from "yjs";
import { checkChange } from "@/lib/room/check-change";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { type RoomMapName, roomMapNames } from "@/lib/room/room-keys";
import type { RoomMember } from "@/lib/room/room-member";
import { database } from "@/lib/store/database";

export interface LogAudit {
  readonly entries: number;
  readonly records: number;
  /** What should not stand there, in words. */
  readonly faults: readonly string[];
}

/**
 * Reads a room's whole log from the tables, entry by entry, and holds every record that an entry changed against
 * the schemas and against what its writer may do. None of the server's own memory is used.
 */
export async function auditRoomLog(pieceId: string): Promise<LogAudit> {
  const members = await readMembers(pieceId);
  const entries = await database().roomUpdate.findMany({ where: { pieceId }, orderBy: { sequence: "asc" } });
  const doc = openRoomDoc();
  const faults: string[] = [];
  const standing = new Map<string, unknown>();
  let records = 0;
  for (const { sequence, update, userId, createdAt } of entries) {
    const member = userId === null ? undefined : members.get(userId);
    const changes = applyAndListChanges(doc, update, standing, faults);
    records += changes.length;
    if (!member || changes.length === 0)
      faults.push(`entry ${sequence} of ${pieceId} is nobody's or nothing`);
    else faults.push(...changes.flatMap((change) => sayFault(change, member, createdAt)));
  }
  if (doc.store.pendingStructs || doc.store.pendingDs) faults.push(`${pieceId} rests on something missing`);
  for (const name of doc.share.keys())
    if (!(roomMapNames as readonly string[]).includes(name)) faults.push(`${pieceId} holds ${name}`);
  return { entries: entries.length, records, faults };
}

interface Change {
  readonly map: RoomMapName;
  readonly key: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** @param standing what each record was before, by map and key; kept up to date. */
function applyAndListChanges(
  doc: Y.Doc,
  update: Uint8Array,
  standing: Map<string, unknown>,
  faults: string[],
): Change[] {
  const changes: Change[] = [];
  const note = (transaction: Y.Transaction) => {
    for (const [type, keys] of transaction.changed as ReadonlyMap<unknown, Set<string | null>>) {
      const map = roomMapNames.find((name) => doc.getMap(name) === type);
      for (const key of keys) {
        if (map === undefined || key === null) faults.push("something nested or listed");
        else
          changes.push({ map, key, before: standing.get(`${map} ${key}`), after: doc.getMap(map).get(key) });
      }
    }
  };
  doc.on("afterTransaction", note);
  Y.applyUpdate(doc, update);
  doc.off("afterTransaction", note);
  for (const { map, key, after } of changes) standing.set(`${map} ${key}`, after);
  return changes;
}

function sayFault(change: Change, member: RoomMember, at: Date): string[] {
  const checked = checkChange({ ...change, isOvertaken: false }, member, at);
  return checked.ok ? [] : [`${change.map} ${change.key}: ${checked.problem.kind}`];
}

async function readMembers(pieceId: string): Promise<Map<string, RoomMember>> {
  const members = await database().member.findMany({ where: { pieceId }, include: { user: true } });
  return new Map(members.map(({ userId, role, user }) => [userId, { userId, role, name: user.name }]));
}
