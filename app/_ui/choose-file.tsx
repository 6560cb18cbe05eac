"use client";

import { type DragEvent, useId, useState } from "react";
import { buttonClass } from "./button";
import styles from "./choose-file.module.css";
import { Icon } from "./icon";

/** One file, chosen with a button or dropped beside it. */
export function ChooseFile({
  file,
  accept,
  hint,
  isBusy = false,
  onChoose,
}: {
  file: File | null;
  /** Endings and media types, as an input takes them. */
  accept: string;
  /** Which file is meant, while none is chosen. */
  hint: string;
  isBusy?: boolean;
  onChoose: (file: File) => void;
}) {
  const id = useId();
  const [isOver, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const [dropped] = event.dataTransfer.files;
    if (dropped && !isBusy) onChoose(dropped);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the label below is the first
    <div
      className={styles.drop}
      data-over={isOver || undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <input
        id={id}
        className={styles.spoken}
        type="file"
        accept={accept}
        disabled={isBusy}
        onChange={(event) => {
          const [chosen] = event.target.files ?? [];
          if (chosen) onChoose(chosen);
        }}
      />
      <label htmlFor={id} className={buttonClass({ kind: file ? "plain" : "settle" })}>
        <Icon name="upload" /> {file ? "Choose another" : "Choose a file"}
      </label>
      <p className={styles.hint}>{file ? <b>{file.name}</b> : hint}</p>
    </div>
  );
}
