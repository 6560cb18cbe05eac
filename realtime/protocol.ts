/**
 * What goes over a room's socket. Every message is one binary frame: its type as varUint, then its body
 * (lib0 encoding). 0, 1 and 3 are those of y-protocols, so that a y-websocket client speaks them unchanged;
 * a client that does not know 4 to 7 may pass them over.
 *
 * | type | name | from | body |
 * |---|---|---|---|
 * | 0 | sync | both | varUint 0, varUint8Array state vector: send me what I lack |
 * |   |      | both | varUint 1, varUint8Array update: what you lack |
 * |   |      | both | varUint 2, varUint8Array update: this is new |
 * | 1 | presence | both | varUint8Array awareness update |
 * | 3 | ask for presence | client | nothing |
 * | 4 | acknowledgement | server | varUint sequence in the room's log, varUint8Array state vector of the clients whose writes are now stored |
 * | 5 | piece changed | server | varString what |
 * | 6 | welcome | server | varUint epoch, varString JSON of the member |
 * | 7 | refused | server | varString JSON of the refusal |
 *
 * Order. The server says welcome, then 0/0 with the state vector of what it has stored, then presence. A client
 * answers 0/0 with 0/1. Whatever a client sends as 0/1 or 0/2 passes the same gate and is stored before it is
 * acknowledged (4) and sent to others (0/2). After 7 the server takes nothing more on this socket and closes it.
 * An update that rests on one that did not arrive is not taken; the server says 0/0 again.
 */
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { z } from "zod";
import { type RoomMember, roomMemberSchema } from "@/lib/room/room-member";

export const messageTypes = {
  sync: 0,
  presence: 1,
  askPresence: 3,
  acknowledgement: 4,
  pieceChanged: 5,
  welcome: 6,
  refused: 7,
} as const;

export const syncTypes = { step1: 0, step2: 1, update: 2 } as const;

export type ClientMessage =
  | { readonly kind: "sync-step-1"; readonly stateVector: Uint8Array }
  | { readonly kind: "sync-step-2"; readonly update: Uint8Array }
  | { readonly kind: "update"; readonly update: Uint8Array }
  | { readonly kind: "presence"; readonly update: Uint8Array }
  | { readonly kind: "ask-presence" };

/** Reads one frame from a client; null when it is no message of this protocol. */
export function readClientMessage(frame: Uint8Array): ClientMessage | null {
  try {
    const decoder = decoding.createDecoder(frame);
    const message = readBody(decoder);
    return decoding.hasContent(decoder) ? null : message;
  } catch {
    return null;
  }
}

function readBody(decoder: decoding.Decoder): ClientMessage | null {
  switch (decoding.readVarUint(decoder)) {
    case messageTypes.sync:
      return readSync(decoder);
    case messageTypes.presence:
      return { kind: "presence", update: readBytes(decoder) };
    case messageTypes.askPresence:
      return { kind: "ask-presence" };
    default:
      return null;
  }
}

function readSync(decoder: decoding.Decoder): ClientMessage | null {
  switch (decoding.readVarUint(decoder)) {
    case syncTypes.step1:
      return { kind: "sync-step-1", stateVector: readBytes(decoder) };
    case syncTypes.step2:
      return { kind: "sync-step-2", update: readBytes(decoder) };
    case syncTypes.update:
      return { kind: "update", update: readBytes(decoder) };
    default:
      return null;
  }
}

/** The state vector of a sync message 0/0 whose type is read, without reading on; null for any other. */
export function peekSyncStep1(decoder: decoding.Decoder): Uint8Array | null {
  const ahead = decoding.clone(decoder);
  return decoding.readVarUint(ahead) === syncTypes.step1 ? readBytes(ahead) : null;
}

/** lib0 would return a shorter array when the length reaches beyond the frame. */
function readBytes(decoder: decoding.Decoder): Uint8Array {
  const length = decoding.readVarUint(decoder);
  if (length > decoder.arr.byteLength - decoder.pos) throw new RangeError(`${length} bytes announced`);
  return decoding.readUint8Array(decoder, length);
}

function write(body: (encoder: encoding.Encoder) => void): Uint8Array {
  return encoding.encode(body);
}

function writeSync(type: number, bytes: Uint8Array): Uint8Array {
  return write((encoder) => {
    encoding.writeVarUint(encoder, messageTypes.sync);
    encoding.writeVarUint(encoder, type);
    encoding.writeVarUint8Array(encoder, bytes);
  });
}

export function writeSyncStep1(stateVector: Uint8Array): Uint8Array {
  return writeSync(syncTypes.step1, stateVector);
}

export function writeSyncStep2(update: Uint8Array): Uint8Array {
  return writeSync(syncTypes.step2, update);
}

export function writeUpdate(update: Uint8Array): Uint8Array {
  return writeSync(syncTypes.update, update);
}

export function writePresence(awarenessUpdate: Uint8Array): Uint8Array {
  return write((encoder) => {
    encoding.writeVarUint(encoder, messageTypes.presence);
    encoding.writeVarUint8Array(encoder, awarenessUpdate);
  });
}

export interface Acknowledgement {
  /** Place in the room's log. */
  readonly sequence: number;
  /** State vector of the clients whose writes are stored thereby. */
  readonly stored: Uint8Array;
}

export function writeAcknowledgement({ sequence, stored }: Acknowledgement): Uint8Array {
  return write((encoder) => {
    encoding.writeVarUint(encoder, messageTypes.acknowledgement);
    encoding.writeVarUint(encoder, sequence);
    encoding.writeVarUint8Array(encoder, stored);
  });
}

/** Reads the body of message 4. */
export function readAcknowledgement(decoder: decoding.Decoder): Acknowledgement {
  return { sequence: decoding.readVarUint(decoder), stored: readBytes(decoder) };
}

export function writePieceChanged(what: string): Uint8Array {
  return write((encoder) => {
    encoding.writeVarUint(encoder, messageTypes.pieceChanged);
    encoding.writeVarString(encoder, what);
  });
}

/** Reads the body of message 5. */
export function readPieceChanged(decoder: decoding.Decoder): string {
  return decoding.readVarString(decoder);
}

export interface Welcome {
  readonly epoch: number;
  /** Who you are here, as the server knows. */
  readonly member: RoomMember;
}

export function writeWelcome({ epoch, member }: Welcome): Uint8Array {
  return write((encoder) => {
    encoding.writeVarUint(encoder, messageTypes.welcome);
    encoding.writeVarUint(encoder, epoch);
    encoding.writeVarString(encoder, JSON.stringify(member));
  });
}

/** Reads the body of message 6. @throws ZodError if it is not one. */
export function readWelcome(decoder: decoding.Decoder): Welcome {
  const epoch = decoding.readVarUint(decoder);
  return { epoch, member: roomMemberSchema.parse(JSON.parse(decoding.readVarString(decoder))) };
}

const refusalSchema = z.object({
  kind: z.string(),
  sentence: z.string(),
  /** The record that was refused, when it was one. */
  place: z.object({ map: z.string(), key: z.string() }).nullable(),
});

/** Why a change of this client was refused. */
export type Refusal = z.infer<typeof refusalSchema>;

export function writeRefused(refusal: Refusal): Uint8Array {
  return write((encoder) => {
    encoding.writeVarUint(encoder, messageTypes.refused);
    encoding.writeVarString(encoder, JSON.stringify(refusal));
  });
}

/** Reads the body of message 7. @throws ZodError if it is not one. */
export function readRefused(decoder: decoding.Decoder): Refusal {
  return refusalSchema.parse(JSON.parse(decoding.readVarString(decoder)));
}
