"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import styles from "./add-by-name.module.css";

/** Adds a note by its name. @param read null for what is no name of a note. */
export function AddByName({
  read,
  onAdd,
  isDisabled,
}: {
  read: (text: string) => RewritePitch | null;
  onAdd: (pitch: RewritePitch) => void;
  isDisabled: boolean;
}) {
  const [text, setText] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const add = (event: FormEvent) => {
    event.preventDefault();
    const pitch = read(text);
    if (!pitch) return setProblem("Write a note such as E♭5, F# or G; c4 is middle C.");
    setProblem(null);
    setText("");
    onAdd(pitch);
  };
  return (
    <form className={styles.form} onSubmit={add}>
      <TextField
        label="Add a note by name"
        hint="A letter alone takes the nearest, as the key has it. Keys A to G do the same."
        value={text}
        onChange={(event) => setText(event.target.value)}
        problem={problem}
        placeholder="E♭5"
        autoComplete="off"
        spellCheck={false}
        maxLength={6}
      />
      <Button type="submit" disabled={isDisabled}>
        Add
      </Button>
    </form>
  );
}
