"use client";

import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { Comment } from "@/lib/room/comment";
import { unreadComments } from "@/lib/room/unread-comments";
import { markCommentsSeenAction } from "../actions/mark-comments-seen";
import { type SeenAtHome, seenAtHome } from "./seen-at-home";

/** Which comments of others are new to this person. */
export interface SeenComments {
  /** Not seen yet. */
  readonly unseen: readonly Comment[];
  /** Was not seen yet when it came on this screen: it goes on being called new until the screen is opened again. */
  isNew(id: string): boolean;
  isUnseen(id: string): boolean;
  see(id: string): void;
}

/** So that a page full of comments is one message. */
const pauseMs = 700;
const againMs = 20_000;
const mostAtOnce = 200;

/**
 * @param seenIds what the server knows to be seen.
 */
export function useSeenComments(
  pieceId: string,
  myId: string,
  comments: readonly Comment[],
  seenIds: readonly string[],
): SeenComments {
  const [seenHere, setSeenHere] = useState<ReadonlySet<string>>(new Set());
  const home = useRef<SeenAtHome | null>(null);
  const wake = useMarking(pieceId, home);
  useEffect(() => {
    home.current = seenAtHome(storageOrNull(), myId, pieceId);
    setSeenHere(new Set(home.current.read()));
    wake();
  }, [myId, pieceId, wake]);
  const known = useMemo(() => new Set([...seenIds, ...seenHere]), [seenIds, seenHere]);
  const unseen = useMemo(() => unreadComments(comments, known, myId), [comments, known, myId]);
  const everNew = useRef(new Set<string>());
  return useMemo(() => {
    const ids = new Set(unseen.map(({ id }) => id));
    for (const id of ids) everNew.current.add(id);
    return {
      unseen,
      isNew: (id) => everNew.current.has(id),
      isUnseen: (id) => ids.has(id),
      see: (id) => {
        if (!ids.has(id)) return;
        setSeenHere((last) => new Set(last).add(id));
        home.current?.add(id);
        wake();
      },
    };
  }, [unseen, wake]);
}

/** Tells the server what was seen, a batch at a time, and again when it could not be told. @returns starts it. */
function useMarking(pieceId: string, home: { readonly current: SeenAtHome | null }): () => void {
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const isSending = useRef(false);
  const isOver = useRef(false);
  const wake = useCallback(() => {
    const later = (pause: number) => {
      if (timer.current) clearTimeout(timer.current);
      timer.current = isOver.current ? null : setTimeout(send, pause);
    };
    const send = async () => {
      const ids = home.current?.read().slice(0, mostAtOnce) ?? [];
      if (ids.length === 0 || isSending.current) return;
      isSending.current = true;
      const answer = await markCommentsSeenAction({ pieceId, commentIds: ids }).catch(() => null);
      isSending.current = false;
      // Whoever is signed out may sign in again; anything else that is refused now is refused for good.
      const isKept = answer === null || (!answer.ok && answer.kind === "signed-out");
      if (!isKept) home.current?.forget(ids);
      if ((home.current?.read().length ?? 0) > 0) later(isKept ? againMs : pauseMs);
    };
    later(pauseMs);
  }, [pieceId, home]);
  useEffect(() => {
    isOver.current = false;
    window.addEventListener("online", wake);
    return () => {
      isOver.current = true;
      window.removeEventListener("online", wake);
      if (timer.current) clearTimeout(timer.current);
    };
  }, [wake]);
  return wake;
}

function storageOrNull(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
