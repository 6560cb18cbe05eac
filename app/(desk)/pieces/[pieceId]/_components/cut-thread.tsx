"use client";

import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { CommentText } from "./comment-text";
import styles from "./cut-thread.module.css";
import { firstName, otherPlayer } from "./person";
import { useRoomHere } from "./room-provider";
import { WriteComment } from "./write-comment";

/** What was said about a cut, and a place to say more. */
export function CutThread({ desk, cut }: { desk: Desk; cut: DeskCut }) {
  const { comments } = useRoomHere();
  // A counter-proposal goes on with the same talk.
  const sameNumber = new Set(desk.cuts.filter(({ number }) => number === cut.number).map(({ id }) => id));
  const thread = comments
    .filter(({ about }) => about.kind === "proposal" && sameNumber.has(about.proposalId))
    .sort((a, b) => (a.createdAt < b.createdAt ? -1 : 1));
  if (!desk.may.readDiscussion) return null;
  const other = otherPlayer(desk);
  const label =
    other && desk.may.propose ? `Write to ${firstName(other)} about this cut` : "Write about this cut";
  return (
    <div className={styles.thread}>
      {thread.length > 0 && <h4>Between you</h4>}
      {thread.map((comment) => (
        <CommentText key={comment.id} desk={desk} comment={comment} />
      ))}
      {desk.may.comment && <WriteComment label={label} about={{ kind: "proposal", proposalId: cut.id }} />}
    </div>
  );
}
