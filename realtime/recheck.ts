import { admitToRoom } from "@/lib/store/room/admit-to-room";
import type { Connection } from "./connection";
import { nameFailure } from "./log-line";

/**
 * Looks up again whether people may still be where they are: closes the sockets of those whose session or
 * membership is over, and notes a changed role. While the database does not answer, everybody stays: nothing
 * can be stored then either.
 *
 * @returns those whose role or name is now another.
 */
export async function recheck(connections: Iterable<Connection>): Promise<Connection[]> {
  const changed: Connection[] = [];
  for (const connection of [...connections]) {
    if (connection.isOpen && (await recheckOne(connection))) changed.push(connection);
  }
  return changed;
}

async function recheckOne(connection: Connection): Promise<boolean> {
  try {
    const admitted = await admitToRoom(connection.sessionHash, connection.pieceId);
    if (!admitted.ok) {
      connection.close(admitted.problem.kind === "signed-out" ? "signedOut" : "notAMember");
      return false;
    }
    const { member } = connection;
    connection.member = admitted.value;
    return member.role !== admitted.value.role || member.name !== admitted.value.name;
  } catch (error) {
    connection.note("not-rechecked", nameFailure(error));
    return false;
  }
}
