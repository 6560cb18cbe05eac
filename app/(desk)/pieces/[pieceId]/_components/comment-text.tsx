"use client";

import { type ReactNode, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { classNames } from "@/app/_ui/class-names";
import { TextArea } from "@/app/_ui/field";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { WhoMark } from "@/app/_ui/who-mark";
import type { Comment } from "@/lib/room/comment";
import styles from "./comment-text.module.css";
import { firstName, personOf } from "./person";
import { useRoomHere } from "./room-provider";

/** One thing that somebody said, with what its writer can do to it. A deleted one can be brought back by its writer. */
export function CommentText({
  desk,
  comment,
  children,
}: {
  desk: Desk;
  comment: Comment;
  children?: ReactNode;
}) {
  const room = useRoomHere();
  const [isEditing, setIsEditing] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const author = personOf(desk, comment.authorId);
  const ink = inkOf(author.role);
  const isMine = author.userId === desk.me.userId;
  const tell = (written: { ok: boolean; sentence?: string }) => setProblem(written.sentence ?? null);
  if (comment.deletedAt !== null) {
    if (!isMine) return null;
    return (
      <div className={styles.deleted}>
        You deleted “{shorten(comment.text)}”.{" "}
        <Button kind="bare" small onClick={() => tell(room.restoreComment(comment.id))}>
          Bring it back
        </Button>
      </div>
    );
  }
  return (
    <div className={styles.comment} data-comment={comment.id}>
      <WhoMark ink={ink} initial={author.initial} />
      <div className={styles.said}>
        <p className={styles.by}>
          <b className={styles[ink]}>{firstName(author)}</b> {sayMoment(comment.createdAt)}
        </p>
        {isEditing ? (
          <EditForm
            text={comment.text}
            onCancel={() => setIsEditing(false)}
            onSave={(text) => {
              tell(room.editComment(comment.id, text));
              setIsEditing(false);
            }}
          />
        ) : (
          <p className={classNames(styles.text, comment.resolvedBy !== null && styles.resolved)}>
            {comment.text}
          </p>
        )}
        {problem && <p className={styles.problem}>{problem}</p>}
        {!isEditing && (
          <div className={styles.tools}>
            {children}
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
          </div>
        )}
      </div>
    </div>
  );
}

function EditForm({
  text,
  onSave,
  onCancel,
}: {
  text: string;
  onSave: (text: string) => void;
  onCancel: () => void;
}) {
  const [draft, setDraft] = useState(text);
  return (
    <form
      className={styles.edit}
      onSubmit={(event) => {
        event.preventDefault();
        onSave(draft);
      }}
    >
      <TextArea
        label="Your words"
        isLabelHidden
        value={draft}
        maxLength={4000}
        onChange={(event) => setDraft(event.target.value)}
      />
      <Button type="submit" small disabled={draft.trim() === ""}>
        Save
      </Button>
      <Button kind="bare" small onClick={onCancel}>
        Leave it
      </Button>
    </form>
  );
}

function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 38)}…` : text;
}

const clock = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });

/** "Sun 22 Feb 21:14", by the reader's own clock. Only drawn in the browser, where the room is. */
function sayMoment(iso: string): string {
  return `${sayDay(iso, new Date())} ${clock.format(new Date(iso))}`;
}
