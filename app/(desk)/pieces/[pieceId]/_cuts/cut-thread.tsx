"use client";

import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import type { Comment } from "@/lib/room/comment";
import { firstName, otherPlayer } from "../_components/person";
import { useRoomHere } from "../_components/room-provider";
import { CommentText } from "../_talk/comment-text";
import { useSeen } from "../_talk/talk-provider";
import { WriteComment } from "../_talk/write-comment";
import { WritingHere } from "../_talk/writing";
import styles from "./cut-thread.module.css";

/** What was said about a cut, and a place to say more. */
export function CutThread({ desk, cut }: { desk: Desk; cut: DeskCut }) {
  const { comments } = useRoomHere();
  const belongs = isAboutCut(desk, cut);
  const thread = comments.filter(belongs).sort((a, b) => (a.createdAt < b.createdAt ? -1 : 1));
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
      <WritingHere desk={desk} place={cut.id} />
      {desk.may.comment && (
        <WriteComment
          desk={desk}
          label={label}
          about={{ kind: "proposal", proposalId: cut.id }}
          place={cut.id}
        />
      )}
    </div>
  );
}

/** "2 new comments" on a card that is not open. */
export function NewOnCut({ desk, cut }: { desk: Desk; cut: DeskCut }) {
  const { unseen } = useSeen();
  const count = unseen.filter(isAboutCut(desk, cut)).length;
  if (count === 0) return null;
  return <p className={styles.new}>{count === 1 ? "1 new comment" : `${count} new comments`}</p>;
}

/** Whether a comment is about a cut: a counter-proposal goes on with the same talk. */
function isAboutCut(desk: Desk, cut: DeskCut): (comment: Comment) => boolean {
  const sameNumber = new Set(desk.cuts.filter(({ number }) => number === cut.number).map(({ id }) => id));
  return ({ about }) => about.kind === "proposal" && sameNumber.has(about.proposalId);
}
