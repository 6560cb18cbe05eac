import { cookies } from "next/headers";
import { publicUrl } from "@/app/_data/public-url";
import { roomsAddress } from "@/app/_data/rooms-address";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";
import { isSameOrigin, otherOriginResponse } from "@/app/api/_edge/same-origin";
import { sessionCookie } from "@/lib/store/auth/session-cookie";
import { issueRoomTicket } from "@/lib/store/room/room-ticket";

/** A ticket for the room of a piece, and where to show it → `{ ticket, address }`. */
export async function POST(
  request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  if (!isSameOrigin(request)) return otherOriginResponse();
  const { pieceId } = await params;
  const token = (await cookies()).get(sessionCookie(publicUrl().href).name)?.value ?? "";
  return forViewer(
    (viewer) => issueRoomTicket(viewer, token, pieceId),
    ({ ticket }) => privateJson({ ticket, address: roomsAddress() }, 201),
  );
}
