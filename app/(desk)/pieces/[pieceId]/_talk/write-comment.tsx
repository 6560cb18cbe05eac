"use client";

import { type FormEvent, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { NewComment } from "@/app/_room/room-actions";
import { Button } from "@/app/_ui/button";
import { useRoomHere } from "../_components/room-provider";
import { MentionArea } from "./mention-area";
import styles from "./write-comment.module.css";
import { useShowsWriting } from "./writing";

/** A field and a button: says something in the room. It is kept in this browser when there is no connection. */
export function WriteComment({
  desk,
  label,
  about,
  place,
  replyTo = null,
  button = "Send",
  isAutoFocus = false,
  onDone,
}: {
  desk: Desk;
  /** Also the placeholder: "Write to Tobias about this cut". */
  label: string;
  about: NewComment["about"];
  /** Where the others are shown that something is being written. */
  place: string;
  replyTo?: string | null;
  button?: string;
  isAutoFocus?: boolean;
  onDone?: () => void;
}) {
  const room = useRoomHere();
  const [text, setText] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  useShowsWriting(place, text.trim() !== "");
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() === "") return;
    const written = room.addComment({ text, about, replyTo });
    if (!written.ok) return setProblem(written.sentence);
    setText("");
    setProblem(null);
    onDone?.();
  };
  return (
    <form className={styles.write} onSubmit={send}>
      <MentionArea
        desk={desk}
        label={label}
        isLabelHidden
        placeholder={label}
        problem={problem}
        rows={1}
        maxLength={4000}
        value={text}
        autoFocus={isAutoFocus}
        onText={setText}
        onKeyDown={(event) => {
          if (event.key === "Enter" && (event.metaKey || event.ctrlKey)) send(event);
          event.stopPropagation();
        }}
      />
      <Button type="submit" disabled={text.trim() === ""}>
        {button}
      </Button>
    </form>
  );
}
