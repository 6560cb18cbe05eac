"use client";

import { useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { Sheet } from "@/app/_ui/sheet";
import type { Comment } from "@/lib/room/comment";
import { noQuarters, readQuarters } from "@/lib/score/quarters";
import { CommentText } from "./comment-text";
import { afterBar } from "./cut-draft";
import { useRoomHere } from "./room-provider";
import styles from "./span-comments.module.css";
import { nameBars, spanOfComment } from "./span-of-comment";
import { WriteComment } from "./write-comment";

/** What was said about bars, in the order of the page, with replies. Resolved ones are folded away. */
export function SpanComments({
  desk,
  commenting,
  shownIds,
  onGo,
  onCommented,
}: {
  desk: Desk;
  /** Bars that a new comment is being written about. */
  commenting: BarSpan | null;
  /** Comments that were opened from a pin. */
  shownIds: readonly string[];
  onGo: (bar: number) => void;
  onCommented: () => void;
}) {
  const { comments } = useRoomHere();
  if (!desk.may.readDiscussion) return null;
  const threads = comments
    .flatMap((comment) => {
      const span = comment.replyTo === null ? spanOfComment(comment) : null;
      return span ? [{ comment, span }] : [];
    })
    .sort(
      (a, b) => a.span.firstBar - b.span.firstBar || (a.comment.createdAt < b.comment.createdAt ? -1 : 1),
    );
  const open = threads.filter(({ comment }) => comment.resolvedBy === null);
  const resolved = threads.filter(({ comment }) => comment.resolvedBy !== null);
  const thread = ({ comment, span }: (typeof threads)[number]) => (
    <Thread
      key={comment.id}
      desk={desk}
      comment={comment}
      span={span}
      replies={comments.filter(({ replyTo }) => replyTo === comment.id)}
      isShown={shownIds.includes(comment.id)}
      onGo={() => onGo(span.firstBar)}
    />
  );
  return (
    <Sheet className={styles.comments} aria-labelledby="comments-heading">
      <h2 id="comments-heading">
        Comments <small>{open.length === 0 ? "none open" : `${open.length} open`}</small>
      </h2>
      {commenting && (
        <div className={styles.new}>
          <p>
            About <b>{nameBars(desk.bars, commenting)}</b>
          </p>
          <WriteComment
            label={`Write about ${nameBars(desk.bars, commenting)}`}
            about={aboutBars(desk, commenting)}
            isAutoFocus
            onDone={onCommented}
          />
          <Button kind="bare" small onClick={onCommented}>
            Leave it
          </Button>
        </div>
      )}
      {open.map(thread)}
      {open.length === 0 && !commenting && (
        <p className={styles.empty}>Mark bars in the score to write about them.</p>
      )}
      {resolved.length > 0 && (
        <Evidence summary={`Resolved, ${resolved.length}`}>{resolved.map(thread)}</Evidence>
      )}
    </Sheet>
  );
}

function aboutBars(desk: Desk, span: BarSpan): Extract<Comment["about"], { kind: "span" }> {
  const end = afterBar(desk.bars, span.lastBar);
  return {
    kind: "span",
    from: { barIndex: span.firstBar, offset: noQuarters },
    to: { barIndex: end.barIndex, offset: readQuarters(end.offset) ?? noQuarters },
  };
}

function Thread({
  desk,
  comment,
  span,
  replies,
  isShown,
  onGo,
}: {
  desk: Desk;
  comment: Comment;
  span: BarSpan;
  replies: readonly Comment[];
  isShown: boolean;
  onGo: () => void;
}) {
  const room = useRoomHere();
  const [isReplying, setIsReplying] = useState(false);
  const isResolved = comment.resolvedBy !== null;
  const name = nameBars(desk.bars, span);
  return (
    <div className={styles.thread} data-shown={isShown || undefined}>
      <button type="button" className={styles.where} onClick={onGo}>
        {name}
      </button>
      <CommentText desk={desk} comment={comment}>
        {desk.may.comment && (
          <>
            <button type="button" onClick={() => setIsReplying(true)}>
              Reply
            </button>
            <button type="button" onClick={() => room.resolveComment(comment.id, !isResolved)}>
              {isResolved ? "Open again" : "Resolve"}
            </button>
          </>
        )}
      </CommentText>
      <div className={styles.replies}>
        {[...replies]
          .sort((a, b) => (a.createdAt < b.createdAt ? -1 : 1))
          .map((reply) => (
            <CommentText key={reply.id} desk={desk} comment={reply} />
          ))}
        {isReplying && (
          <WriteComment
            label={`Reply about ${name}`}
            about={comment.about}
            replyTo={comment.id}
            button="Reply"
            isAutoFocus
            onDone={() => setIsReplying(false)}
          />
        )}
      </div>
    </div>
  );
}
