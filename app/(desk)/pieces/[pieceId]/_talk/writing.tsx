"use client";

import { useEffect } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { inkOf } from "@/app/_ui/party";
import { firstName, personOf } from "../_components/person";
import { useRoomHere } from "../_components/room-provider";
import styles from "./writing.module.css";

/** Where somebody writes who begins a comment that has no name yet. */
export const newCommentPlace = "new-comment";

/** Where somebody writes who answers a comment; its own place is for whoever rewords it. */
export function replyPlace(commentId: string): string {
  return `re-${commentId}`;
}

/** Shows the others that this person writes there, as long as they do. */
export function useShowsWriting(place: string, isWriting: boolean): void {
  const { showEditing } = useRoomHere();
  useEffect(() => {
    if (!isWriting) return;
    showEditing(place);
    return () => showEditing(null);
  }, [showEditing, place, isWriting]);
}

/** "Matthis is writing…" */
export function WritingHere({ desk, place }: { desk: Desk; place: string }) {
  const { people } = useRoomHere();
  return people
    .filter(({ isMe, editing }) => !isMe && editing === place)
    .map(({ userId }) => {
      const person = personOf(desk, userId);
      return (
        <p key={userId} className={styles[inkOf(person.role)]}>
          {firstName(person)} is writing…
        </p>
      );
    });
}
