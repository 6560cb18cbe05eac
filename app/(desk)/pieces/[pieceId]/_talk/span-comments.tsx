"use client";

import { useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { nameBars } from "@/app/_ui/name-span";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { Sheet } from "@/app/_ui/sheet";
import type { Comment } from "@/lib/room/comment";
import { noQuarters, readQuarters } from "@/lib/score/quarters";
import { personOf, sayWho } from "../_components/person";
import { useRoomHere } from "../_components/room-provider";
import { afterBar } from "../_cuts/cut-draft";
import { CommentText } from "./comment-text";
import { listThreads, type SpanThread } from "./list-threads";
import styles from "./span-comments.module.css";
import { useSeen } from "./talk-provider";
import { WriteComment } from "./write-comment";
import { newCommentPlace, replyPlace, WritingHere } from "./writing";

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
  const { isUnseen } = useSeen();
  if (!desk.may.readDiscussion) return null;
  const threads = listThreads(comments, desk.me.userId);
  const open = threads.filter(({ comment }) => comment.resolvedBy === null);
  const resolved = threads.filter(({ comment }) => comment.resolvedBy !== null);
  const countNew = (some: readonly SpanThread[]) =>
    some.flatMap(({ comment, replies }) => [comment, ...replies]).filter(({ id }) => isUnseen(id)).length;
  const [all, folded] = [countNew(threads), countNew(resolved)];
  const openCount = open.filter(({ comment }) => comment.deletedAt === null).length;
  const thread = (one: SpanThread) => (
    <Thread
      key={one.comment.id}
      desk={desk}
      thread={one}
      isShown={[one.comment, ...one.replies].some(({ id }) => shownIds.includes(id))}
      onGo={() => onGo(one.span.firstBar)}
    />
  );
  return (
    <Sheet className={styles.comments} aria-labelledby="comments-heading">
      <h2 id="comments-heading">
        Comments{" "}
        <small>
          {openCount === 0 ? "none open" : `${openCount} open`}
          {all > 0 && <b>, {all} new</b>}
        </small>
      </h2>
      <WritingHere desk={desk} place={newCommentPlace} />
      {commenting && (
        <div className={styles.new}>
          <p>
            About <b>{nameBars(desk.bars, commenting)}</b>
          </p>
          <WriteComment
            desk={desk}
            label={`Write about ${nameBars(desk.bars, commenting)}`}
            about={aboutBars(desk, commenting)}
            place={newCommentPlace}
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
        <Evidence
          summary={
            <>
              Resolved, {resolved.length}
              {folded > 0 && <b>, {folded} new in it</b>}
            </>
          }
        >
          {resolved.map(thread)}
        </Evidence>
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
  thread: { comment, span, replies },
  isShown,
  onGo,
}: {
  desk: Desk;
  thread: SpanThread;
  isShown: boolean;
  onGo: () => void;
}) {
  const room = useRoomHere();
  const [isReplying, setIsReplying] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const isResolved = comment.resolvedBy !== null;
  const name = nameBars(desk.bars, span);
  const resolve = () => {
    const written = room.resolveComment(comment.id, !isResolved);
    setProblem(written.ok ? null : written.sentence);
  };
  return (
    <div className={styles.thread} data-shown={isShown || undefined}>
      <div className={styles.head}>
        <button type="button" className={styles.where} onClick={onGo}>
          {name}
        </button>
        {comment.resolvedBy !== null && (
          <span>Resolved by {sayWho(desk, personOf(desk, comment.resolvedBy))}</span>
        )}
        {comment.reopenedBy !== null && (
          <span>Opened again by {sayWho(desk, personOf(desk, comment.reopenedBy))}</span>
        )}
      </div>
      <CommentText
        desk={desk}
        comment={comment}
        hasReplies={replies.some(({ deletedAt }) => deletedAt === null)}
      >
        {desk.may.comment && (
          <>
            <button type="button" onClick={() => setIsReplying(true)}>
              Reply
            </button>
            <button type="button" onClick={resolve}>
              {isResolved ? "Open again" : "Resolve"}
            </button>
          </>
        )}
      </CommentText>
      {problem && <p className={styles.problem}>{problem}</p>}
      <div className={styles.replies}>
        {[...replies]
          .sort((a, b) => (a.createdAt < b.createdAt ? -1 : 1))
          .map((reply) => (
            <CommentText key={reply.id} desk={desk} comment={reply} />
          ))}
        <WritingHere desk={desk} place={replyPlace(comment.id)} />
        {isReplying && (
          <WriteComment
            desk={desk}
            label={`Reply about ${name}`}
            about={comment.about}
            place={replyPlace(comment.id)}
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
