"use client";

import { useRouter } from "next/navigation";
import { createContext, type ReactNode, useContext, useEffect, useRef, useState } from "react";
import { askChangedAt } from "@/app/_room/ask-changed-at";
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
  changedAt,
  children,
}: {
  pieceId: string;
  me: RoomMember;
  /** Where rooms lie when they lie on another origin; null when behind the page's own. */
  roomsAddress: string | null;
  /** When the piece, as this page shows it, was last changed: ISO 8601. */
  changedAt: string;
  children: ReactNode;
}) {
  const router = useRouter();
  const shown = useRef(changedAt);
  useEffect(() => {
    shown.current = changedAt;
  }, [changedAt]);
  const room = useRoom(pieceId, me, {
    roomsAddress,
    onPieceChanged: () => router.refresh(),
    // Between drawing the page and letting it into the room nobody told it anything.
    onArrived: async () => {
      const latest = await askChangedAt(pieceId);
      if (latest !== null && latest !== shown.current) router.refresh();
    },
  });
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
