import { admitToRooms, type RoomAdmission } from "@/lib/store/room/admit-to-room";
import type { Connection } from "./connection";

/** So many are looked up with one query: reading the answer holds up everybody's updates meanwhile. */
const askedAtOnce = 100;

/**
 * Looks up again whether people may still be where they are: closes the sockets of those whose session or
 * membership is over, and notes a changed role.
 *
 * @returns those whose role or name is now another.
 * @throws when the database does not answer; everybody then stays, and nothing of theirs can be stored either.
 */
export async function recheck(connections: Iterable<Connection>): Promise<Connection[]> {
  const open = [...connections].filter((connection) => connection.isOpen);
  const changed: Connection[] = [];
  for (let start = 0; start < open.length; start += askedAtOnce) {
    const asked = open.slice(start, start + askedAtOnce);
    const admissions = await admitToRooms(
      asked.map(({ sessionHash, pieceId }) => ({ tokenHash: sessionHash, pieceId })),
    );
    changed.push(...asked.filter((connection, index) => takeAdmission(connection, admissions[index])));
  }
  return changed;
}

/** Whether the person stays, but under another role or name. */
function takeAdmission(connection: Connection, admission: RoomAdmission | undefined): boolean {
  if (!admission) return false;
  if (!admission.ok) {
    connection.close(admission.problem.kind === "signed-out" ? "signedOut" : "notAMember");
    return false;
  }
  const before = connection.member;
  connection.member = admission.value;
  return before.role !== admission.value.role || before.name !== admission.value.name;
}
