import type { Connection } from "./connection";
import { type ClientMessage, readClientMessage } from "./protocol";
import type { RealtimeLimits } from "./realtime-limits";
import type { Room } from "./room";

/** Does what one frame from a client asks for; a frame that is no message ends the connection. */
export function takeFrame(
  room: Room,
  connection: Connection,
  frame: Uint8Array,
  limits: RealtimeLimits,
): void {
  const message = readClientMessage(frame);
  if (message === null || !takeMessage(room, connection, message, limits))
    connection.close("unreadableMessage");
}

/** @returns false when the body of the message cannot be read. */
function takeMessage(
  room: Room,
  connection: Connection,
  message: ClientMessage,
  limits: RealtimeLimits,
): boolean {
  switch (message.kind) {
    case "sync-step-1":
      return sendMissing(room, connection, message.stateVector);
    case "sync-step-2":
      room.submit(connection, message.update, true);
      return true;
    case "update":
      room.submit(connection, message.update, false);
      return true;
    case "presence":
      return (
        message.update.byteLength <= limits.presenceBytes && room.people.take(connection, message.update)
      );
    case "ask-presence":
      room.people.sendOthers(connection);
      return true;
  }
}

function sendMissing(room: Room, connection: Connection, stateVector: Uint8Array): boolean {
  try {
    room.sendMissing(connection, stateVector);
    return true;
  } catch {
    return false;
  }
}
