import type { IncomingMessage } from "node:http";
import type { RoomMember } from "@/lib/room/room-member";
import { failure, type Result, success } from "@/lib/score/result";
import { hashToken } from "@/lib/store/auth/session";
import { readSessionToken } from "@/lib/store/auth/session-cookie";
import { admitToRooms, type RoomAdmissionProblem } from "@/lib/store/room/admit-to-room";
import { takeRoomTicket } from "@/lib/store/room/room-ticket";

/** Someone at the door who may come in. */
export interface Admission {
  readonly pieceId: string;
  readonly member: RoomMember;
  /** Under which the session can be looked up again, also when a ticket of it was shown. */
  readonly sessionHash: string;
  /** The epoch of the copy that the client already has; null when it has none. */
  readonly knownEpoch: number | null;
}

export type AdmissionProblem = RoomAdmissionProblem | { readonly kind: "wrong-origin" };

/**
 * Who asks for which room. Everything is taken from the request's own address and its ticket or, when it shows
 * none, its cookie; another site cannot open a socket in a visitor's name, because the browser states its origin.
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
  const { pieceId, knownEpoch, ticket } = room;
  const sessionHash = await findSession(request, publicUrl, pieceId, ticket);
  if (sessionHash === null) return failure({ kind: "signed-out" });
  const [admitted] = await admitToRooms([{ tokenHash: sessionHash, pieceId }]);
  if (!admitted?.ok) return admitted ?? failure({ kind: "signed-out" });
  return success({ pieceId, knownEpoch, member: admitted.value, sessionHash });
}

/** The hash of the session that a request comes with; null when it comes with none. */
async function findSession(
  request: IncomingMessage,
  publicUrl: URL,
  pieceId: string,
  ticket: string | null,
): Promise<string | null> {
  if (ticket !== null) return takeRoomTicket(ticket, pieceId);
  const token = readSessionToken(request.headers.cookie, publicUrl.href);
  return token === null ? null : hashToken(token);
}

/** Reads `/rooms/<pieceId>` with `?epoch=` and `?ticket=`, both optional; null for any other address. */
function readRoomAddress(address: string, path: string) {
  const { pathname, searchParams } = new URL(address, "http://room.invalid");
  if (!pathname.startsWith(`${path}/`)) return null;
  const pieceId = pathname.slice(path.length + 1);
  const epoch = searchParams.get("epoch");
  if (!/^[A-Za-z0-9-]{1,64}$/.test(pieceId)) return null;
  if (epoch !== null && !/^\d{1,9}$/.test(epoch)) return null;
  const knownEpoch = epoch === null ? null : Number(epoch);
  return { pieceId, knownEpoch, ticket: searchParams.get("ticket") };
}
