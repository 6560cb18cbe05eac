import type { IncomingMessage } from "node:http";
import type { RoomMember } from "@/lib/room/room-member";
import { failure, type Result, success } from "@/lib/score/result";
import { hashToken } from "@/lib/store/auth/session";
import { readSessionToken } from "@/lib/store/auth/session-cookie";
import { admitToRooms, type RoomAdmissionProblem } from "@/lib/store/room/admit-to-room";

/** Someone at the door who may come in. */
export interface Admission {
  readonly pieceId: string;
  readonly member: RoomMember;
  /** Under which the session can be looked up again. */
  readonly sessionHash: string;
  /** The epoch of the copy that the client already has; null when it has none. */
  readonly knownEpoch: number | null;
}

export type AdmissionProblem = RoomAdmissionProblem | { readonly kind: "wrong-origin" };

/**
 * Who asks for which room. Everything is taken from the request's own cookie and address; another site cannot
 * open a socket in a visitor's name, because the browser states its origin.
 *
 * @param path where rooms lie, such as `/rooms`.
 * @param publicUrl the address people open (`NEXTAUTH_URL`).
 * @throws when the database does not answer.
 */
export async function authenticate(
  request: IncomingMessage,
  path: string,
  publicUrl: URL,
): Promise<Result<Admission, AdmissionProblem>> {
  if (request.headers.origin !== publicUrl.origin) return failure({ kind: "wrong-origin" });
  const room = readRoomAddress(request.url ?? "/", path);
  if (room === null) return failure({ kind: "not-found" });
  const token = readSessionToken(request.headers.cookie, publicUrl.href);
  if (token === null) return failure({ kind: "signed-out" });
  const sessionHash = hashToken(token);
  const [admitted] = await admitToRooms([{ tokenHash: sessionHash, pieceId: room.pieceId }]);
  if (!admitted?.ok) return admitted ?? failure({ kind: "signed-out" });
  return success({ ...room, member: admitted.value, sessionHash });
}

/** Reads `/rooms/<pieceId>` with an optional `?epoch=`; null for any other address. */
function readRoomAddress(address: string, path: string) {
  const { pathname, searchParams } = new URL(address, "http://room.invalid");
  if (!pathname.startsWith(`${path}/`)) return null;
  const pieceId = pathname.slice(path.length + 1);
  const epoch = searchParams.get("epoch");
  if (!/^[A-Za-z0-9-]{1,64}$/.test(pieceId)) return null;
  if (epoch !== null && !/^\d{1,9}$/.test(epoch)) return null;
  return { pieceId, knownEpoch: epoch === null ? null : Number(epoch) };
}
