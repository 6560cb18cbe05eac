"use client";

import { type ReactNode, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { classNames } from "@/app/_ui/class-names";
import { inkOf } from "@/app/_ui/party";
import { WhoMark } from "@/app/_ui/who-mark";
import type { Comment } from "@/lib/room/comment";
import { findMentions } from "@/lib/room/find-mentions";
import { Moment } from "../_components/moment";
import { firstName, personOf } from "../_components/person";
import { useRoomHere } from "../_components/room-provider";
import { useOnScreen } from "../_components/use-on-screen";
import { RecordPast } from "../_cuts/record-past";
import styles from "./comment-text.module.css";
import { CommentWords } from "./comment-words";
import { EditComment } from "./edit-comment";
import { useSeen } from "./talk-provider";
import { WritingHere } from "./writing";

/** One thing that somebody said, with what its writer can do to it. A deleted one can be brought back by its writer. */
export function CommentText({
  desk,
  comment,
  hasReplies = false,
  children,
}: {
  desk: Desk;
  comment: Comment;
  /** Answers stand under it, so that its place stays when it is deleted. */
  hasReplies?: boolean;
  children?: ReactNode;
}) {
  const room = useRoomHere();
  const [isEditing, setIsEditing] = useState(false);
  /** What it said before it was edited here. */
  const [before, setBefore] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const { isNew, ref } = useNews(comment);
  const author = personOf(desk, comment.authorId);
  const ink = inkOf(author.role);
  const isMine = author.userId === desk.me.userId;
  const tell = (written: { ok: boolean; sentence?: string }) => setProblem(written.sentence ?? null);
  const reword = (text: string) => {
    setIsEditing(false);
    const written = room.editComment(comment.id, text);
    tell(written);
    return written.ok;
  };
  if (comment.deletedAt !== null)
    return (
      <Deleted
        desk={desk}
        comment={comment}
        isShown={isMine || hasReplies}
        problem={problem}
        onBringBack={() => tell(room.restoreComment(comment.id))}
      />
    );
  return (
    <div ref={ref} className={styles.comment} data-comment={comment.id} data-new={isNew || undefined}>
      <WhoMark ink={ink} initial={author.initial} />
      <div className={styles.said}>
        <p className={styles.by}>
          <b className={styles[ink]}>{firstName(author)}</b> <Moment iso={comment.createdAt} />
          <Remarks desk={desk} comment={comment} isNew={isNew} />
        </p>
        {isEditing ? (
          <EditComment
            desk={desk}
            comment={comment}
            onCancel={() => setIsEditing(false)}
            onSave={(text) => {
              if (reword(text)) setBefore(comment.text);
            }}
          />
        ) : (
          <p className={classNames(styles.text, comment.resolvedBy !== null && styles.resolved)}>
            <CommentWords text={comment.text} people={desk.people} />
          </p>
        )}
        {problem && <p className={styles.problem}>{problem}</p>}
        <WritingHere desk={desk} place={comment.id} />
        {!isEditing && (
          <div className={styles.tools}>
            {children}
            {isMine && before !== null && before !== comment.text && (
              <button
                type="button"
                onClick={() => {
                  if (reword(before)) setBefore(null);
                }}
              >
                Undo the edit
              </button>
            )}
            {isMine && (
              <>
                <button type="button" onClick={() => setIsEditing(true)}>
                  Edit
                </button>
                <button type="button" onClick={() => tell(room.deleteComment(comment.id))}>
                  Delete
                </button>
              </>
            )}
            {isMine && comment.about.kind === "span" && (
              <label className={styles.print}>
                <input
                  type="checkbox"
                  checked={comment.print}
                  onChange={(event) => tell(room.printComment(comment.id, event.target.checked))}
                />
                Print it in the edition
              </label>
            )}
            <RecordPast
              desk={desk}
              of={{ map: "comments", key: comment.id }}
              onBringBack={isMine ? reword : undefined}
            />
          </div>
        )}
      </div>
    </div>
  );
}

/** Whether it is new to the reader; then it is watched until it was on the screen. */
function useNews({ id, deletedAt }: Comment) {
  const seen = useSeen();
  const ref = useRef<HTMLDivElement>(null);
  useOnScreen(ref, deletedAt === null && seen.isUnseen(id), () => seen.see(id));
  return { ref, isNew: seen.isNew(id) };
}

/** What is to be said about a comment, in words, behind its writer's name. */
function Remarks({ desk, comment, isNew }: { desk: Desk; comment: Comment; isNew: boolean }) {
  const { unsavedKeys } = useRoomHere();
  const isMine = comment.authorId === desk.me.userId;
  const present = desk.people.filter(({ hasLeft }) => !hasLeft);
  const mentionsMe = !isMine && findMentions(comment.text, present).includes(desk.me.userId);
  return (
    <>
      {comment.editedAt !== null && (
        <span>
          {" "}
          · edited <Moment iso={comment.editedAt} />
        </span>
      )}
      {comment.print && <strong> · printed in the edition</strong>}
      {isNew && <strong> · new</strong>}
      {mentionsMe && <strong> · mentions you</strong>}
      {isMine && unsavedKeys.has(`comments ${comment.id}`) && <strong> · not saved yet</strong>}
    </>
  );
}

function Deleted({
  desk,
  comment,
  isShown,
  problem,
  onBringBack,
}: {
  desk: Desk;
  comment: Comment;
  isShown: boolean;
  problem: string | null;
  onBringBack: () => void;
}) {
  if (!isShown) return null;
  if (comment.authorId !== desk.me.userId)
    return (
      <p className={styles.deleted}>
        {firstName(personOf(desk, comment.authorId))} deleted what stood here. The answers stay.
      </p>
    );
  return (
    <div className={styles.deleted}>
      You deleted “{shorten(comment.text)}”.{" "}
      <Button kind="bare" small onClick={onBringBack}>
        Bring it back
      </Button>
      {problem && <p className={styles.problem}>{problem}</p>}
    </div>
  );
}

function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 38)}…` : text;
}
