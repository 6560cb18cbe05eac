"use client";

import { createContext, type ReactNode, useContext } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useRoomHere } from "../_components/room-provider";
import { type SeenComments, useSeenComments } from "./use-seen-comments";

const SeenContext = createContext<SeenComments | null>(null);

/** What of the talk on one screen is new to its reader. */
export function TalkProvider({
  desk,
  seenIds,
  children,
}: {
  desk: Pick<Desk, "pieceId" | "me">;
  /** Comments that the server knows this person has seen. */
  seenIds: readonly string[];
  children: ReactNode;
}) {
  const { comments } = useRoomHere();
  const seen = useSeenComments(desk.pieceId, desk.me.userId, comments, seenIds);
  return <SeenContext.Provider value={seen}>{children}</SeenContext.Provider>;
}

/** @throws Error outside a `TalkProvider`. */
export function useSeen(): SeenComments {
  const seen = useContext(SeenContext);
  if (seen === null) throw new Error("Nothing tells here what is new");
  return seen;
}
