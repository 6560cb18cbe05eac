"use client";

import { useRouter } from "next/navigation";
import { createContext, type ReactNode, useContext, useEffect, useState } from "react";
import { type Room, useRoom } from "@/app/_room/use-room";
import type { RoomMember } from "@/lib/room/room-member";

const RoomContext = createContext<Room | null>(null);

/** The printed numbers of the piece's bars, once a screen that knows them is open; null before. */
type BarLabels = readonly string[] | null;
const BarLabelsContext = createContext<BarLabels>(null);
const TellBarLabelsContext = createContext<(labels: BarLabels) => void>(() => {});

/** The room of the piece, open on all its screens. When the piece changes elsewhere, what the server shows is read again. */
export function RoomProvider({
  pieceId,
  me,
  roomsAddress,
  children,
}: {
  pieceId: string;
  me: RoomMember;
  /** Where rooms lie when they lie on another origin; null when behind the page's own. */
  roomsAddress: string | null;
  children: ReactNode;
}) {
  const router = useRouter();
  const room = useRoom(pieceId, me, { roomsAddress, onPieceChanged: () => router.refresh() });
  const [barLabels, setBarLabels] = useState<BarLabels>(null);
  return (
    <RoomContext.Provider value={room}>
      <TellBarLabelsContext.Provider value={setBarLabels}>
        <BarLabelsContext.Provider value={barLabels}>{children}</BarLabelsContext.Provider>
      </TellBarLabelsContext.Provider>
    </RoomContext.Provider>
  );
}

/** @throws Error outside a `RoomProvider`. */
export function useRoomHere(): Room {
  const room = useContext(RoomContext);
  if (room === null) throw new Error("No room is open here");
  return room;
}

/** The printed numbers by bar index; null while no screen told them. */
export function useBarLabels(): BarLabels {
  return useContext(BarLabelsContext);
}

/** Tells what stands around the screen (its header) how the bars are called. */
export function useTellBarLabels(bars: readonly { readonly label: string }[]): void {
  const tell = useContext(TellBarLabelsContext);
  useEffect(() => tell(bars.map(({ label }) => label)), [tell, bars]);
}
