"use client";

import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { RoomMember } from "@/lib/room/room-member";
import { type RoomActions, roomActions } from "./room-actions";
import { roomAddress } from "./room-address";
import type { RoomSession } from "./room-session";
import { emptyRoomView, type RoomView } from "./room-view";

export interface UseRoomOptions {
  /** Something of the piece outside the room changed: its proposals, editions, members… ("everything" when unsure). */
  readonly onPieceChanged: (what: string) => void;
}

export type Room = RoomView & RoomActions;

const notOpen = { ok: false, sentence: "The room is not open yet. Try again in a moment." } as const;

const closedActions: RoomActions = {
  addComment: () => notOpen,
  editComment: () => notOpen,
  deleteComment: () => notOpen,
  restoreComment: () => notOpen,
  resolveComment: () => notOpen,
  addBreath: () => notOpen,
  removeBreath: () => notOpen,
  restoreBreath: () => notOpen,
  showWhere: () => {},
  showEditing: () => {},
  dismissKept: () => {},
};

const noSubscription = () => () => {};
const empty = () => emptyRoomView;

/** The shared room of a piece: what stands in it, how far it is saved, who is here, and what one can do. */
export function useRoom(pieceId: string, me: RoomMember, { onPieceChanged }: UseRoomOptions): Room {
  const session = useRoomSession(pieceId, me, onPieceChanged);
  const view = useSyncExternalStore(session?.subscribe ?? noSubscription, session?.view ?? empty, empty);
  useLeaveWarning(view.unsavedCount > 0);
  const actions = useMemo(() => (session ? roomActions(session) : closedActions), [session]);
  return useMemo(() => ({ ...view, ...actions }), [view, actions]);
}

function useRoomSession(
  pieceId: string,
  me: RoomMember,
  onPieceChanged: (what: string) => void,
): RoomSession | null {
  const [session, setSession] = useState<RoomSession | null>(null);
  const { userId, name, role } = me;
  const tell = useRef(onPieceChanged);
  useEffect(() => {
    tell.current = onPieceChanged;
  }, [onPieceChanged]);
  useEffect(() => {
    let opened: RoomSession | null = null;
    let isLeft = false;
    // Only a browser opens rooms: the server that draws the page must not load a second copy of Yjs beside its own.
    void import("./room-session").then(({ RoomSession }) => {
      if (isLeft) return;
      opened = new RoomSession({
        pieceId,
        me: { userId, name, role },
        address: roomAddress(window.location),
        onPieceChanged: (what) => tell.current(what),
      });
      setSession(opened);
    });
    const wake = () => {
      if (document.visibilityState === "visible") opened?.wake();
    };
    window.addEventListener("online", wake);
    document.addEventListener("visibilitychange", wake);
    return () => {
      isLeft = true;
      window.removeEventListener("online", wake);
      document.removeEventListener("visibilitychange", wake);
      setSession(null);
      void opened?.close();
    };
  }, [pieceId, userId, name, role]);
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
