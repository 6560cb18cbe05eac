"use client";

import { useRouter } from "next/navigation";
import { createContext, type ReactNode, useContext } from "react";
import { type Room, useRoom } from "@/app/_room/use-room";
import type { RoomMember } from "@/lib/room/room-member";

const RoomContext = createContext<Room | null>(null);

/** The room of the piece, open on all its screens. When the piece changes elsewhere, what the server shows is read again. */
export function RoomProvider({
  pieceId,
  me,
  children,
}: {
  pieceId: string;
  me: RoomMember;
  children: ReactNode;
}) {
  const router = useRouter();
  const room = useRoom(pieceId, me, { onPieceChanged: () => router.refresh() });
  return <RoomContext.Provider value={room}>{children}</RoomContext.Provider>;
}

/** @throws Error outside a `RoomProvider`. */
export function useRoomHere(): Room {
  const room = useContext(RoomContext);
  if (room === null) throw new Error("No room is open here");
  return room;
}
