"use client";

import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import { notePageChanged } from "@/app/_offline/keep-soon";
import { forgetPiece } from "@/app/_offline/tell-worker";
import type { RoomMember } from "@/lib/room/room-member";
import { onWaking } from "./on-waking";
import { type RoomActions, roomActions } from "./room-actions";
import { roomAddress } from "./room-address";
import type { RoomSession } from "./room-session";
import { emptyRoomView, type RoomView } from "./room-view";
import { askTicket, ticketSocket } from "./ticket-socket";

export interface UseRoomOptions {
  /** Something of the piece outside the room changed: its proposals, editions, members… ("everything" when unsure). */
  readonly onPieceChanged: (what: string) => void;
  /** The page hears of changes from now on: what changed while it did not is to be asked for. */
  readonly onArrived: () => void;
  /** Where rooms lie when they lie elsewhere: then each connection shows a ticket. Null: here, with the cookie. */
  readonly roomsAddress?: string | null;
}

export type Room = RoomView & RoomActions;

const notOpen = { ok: false, sentence: "The room is not open yet. Try again in a moment." } as const;

const closedActions: RoomActions = {
  addComment: () => notOpen,
  editComment: () => notOpen,
  deleteComment: () => notOpen,
  restoreComment: () => notOpen,
  resolveComment: () => notOpen,
  printComment: () => notOpen,
  addBreath: () => notOpen,
  removeBreath: () => notOpen,
  restoreBreath: () => notOpen,
  addCue: () => notOpen,
  rewordCue: () => notOpen,
  removeCue: () => notOpen,
  restoreCue: () => notOpen,
  showWhere: () => {},
  showEditing: () => {},
  pencilCut: () => notOpen,
  movePencilledCut: () => notOpen,
  rubOutPencilledCut: () => notOpen,
  bringBackPencilledCut: () => notOpen,
  settlePencilledCut: () => notOpen,
  planRestoration: () => null,
  restoreWrites: () => notOpen,
  dismissKept: () => {},
  writeKeptAgain: () => notOpen,
  writeAllKeptAgain: () => notOpen,
  exportKept: () => "",
};

const noSubscription = () => () => {};
const empty = () => emptyRoomView;

/** The shared room of a piece: what stands in it, how far it is saved, who is here, and what one can do. */
export function useRoom(
  pieceId: string,
  me: RoomMember,
  { onPieceChanged, onArrived, roomsAddress = null }: UseRoomOptions,
): Room {
  const session = useRoomSession(pieceId, me, { onPieceChanged, onArrived }, roomsAddress);
  const view = useSyncExternalStore(session?.subscribe ?? noSubscription, session?.view ?? empty, empty);
  useLeaveWarning(view.unsavedCount > 0);
  const actions = useMemo(() => (session ? roomActions(session) : closedActions), [session]);
  return useMemo(() => ({ ...view, ...actions }), [view, actions]);
}

function useRoomSession(
  pieceId: string,
  me: RoomMember,
  events: Pick<UseRoomOptions, "onPieceChanged" | "onArrived">,
  roomsAddress: string | null,
): RoomSession | null {
  const [session, setSession] = useState<RoomSession | null>(null);
  const { userId, name, role } = me;
  const tell = useRef(events);
  useEffect(() => {
    tell.current = events;
  });
  useEffect(() => {
    let opened: RoomSession | null = null;
    let isLeft = false;
    const askForTicket = () => askTicket(pieceId);
    // Only a browser opens rooms: the server that draws the page must not load a second copy of Yjs beside its own.
    void import("./room-session").then(({ RoomSession }) => {
      if (isLeft) return;
      opened = new RoomSession({
        pieceId,
        me: { userId, name, role },
        onPieceChanged: (what) => {
          tell.current.onPieceChanged(what);
          notePageChanged();
        },
        onArrived: () => tell.current.onArrived(),
        onNotAMember: () => forgetPiece(pieceId),
        ...(roomsAddress === null
          ? { address: roomAddress(window.location), askDoor: askForTicket }
          : { address: roomsAddress, WebSocketPolyfill: ticketSocket(askForTicket) }),
      });
      setSession(opened);
    });
    const stopWaking = onWaking(() => opened?.wake());
    return () => {
      isLeft = true;
      stopWaking();
      setSession(null);
      void opened?.close();
    };
  }, [pieceId, userId, name, role, roomsAddress]);
  return session;
}

/** The browser asks before the page is left. */
function useLeaveWarning(isUnsaved: boolean): void {
  useEffect(() => {
    if (!isUnsaved) return;
    const warn = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", warn);
    return () => window.removeEventListener("beforeunload", warn);
  }, [isUnsaved]);
}
