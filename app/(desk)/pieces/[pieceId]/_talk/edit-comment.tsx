"use client";

import { type FormEvent, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import type { Comment } from "@/lib/room/comment";
import styles from "./edit-comment.module.css";
import { MentionArea } from "./mention-area";
import { useShowsWriting } from "./writing";

/** One's own words, to be changed. */
export function EditComment({
  desk,
  comment,
  onSave,
  onCancel,
}: {
  desk: Desk;
  comment: Comment;
  onSave: (text: string) => void;
  onCancel: () => void;
}) {
  const [draft, setDraft] = useState(comment.text);
  useShowsWriting(comment.id, true);
  const save = (event: FormEvent) => {
    event.preventDefault();
    if (draft.trim() === "") return;
    if (draft.trim() === comment.text) onCancel();
    else onSave(draft);
  };
  return (
    <form className={styles.edit} onSubmit={save}>
      <MentionArea
        desk={desk}
        label="Your words"
        isLabelHidden
        value={draft}
        maxLength={4000}
        autoFocus
        onText={setDraft}
        onKeyDown={(event) => {
          if (event.key === "Enter" && (event.metaKey || event.ctrlKey)) save(event);
          else if (event.key === "Escape") onCancel();
          event.stopPropagation();
        }}
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
