"use client";

import { type FormEvent, useState } from "react";
import type { NewComment } from "@/app/_room/room-actions";
import { Button } from "@/app/_ui/button";
import { TextArea } from "@/app/_ui/field";
import { useRoomHere } from "./room-provider";
import styles from "./write-comment.module.css";

/** A field and a button: says something in the room. It is kept in this browser when there is no connection. */
export function WriteComment({
  label,
  about,
  replyTo = null,
  button = "Send",
  isAutoFocus = false,
  onDone,
}: {
  /** Also the placeholder: "Write to Tobias about this cut". */
  label: string;
  about: NewComment["about"];
  replyTo?: string | null;
  button?: string;
  isAutoFocus?: boolean;
  onDone?: () => void;
}) {
  const room = useRoomHere();
  const [text, setText] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
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
      <TextArea
        label={label}
        isLabelHidden
        placeholder={label}
        problem={problem}
        rows={1}
        maxLength={4000}
        value={text}
        autoFocus={isAutoFocus}
        onChange={(event) => setText(event.target.value)}
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
