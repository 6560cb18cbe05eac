"use client";

import { useState } from "react";
import { sayClock } from "@/lib/score/say-clock";
import styles from "./programme.module.css";
import { readGap } from "./read-gap";

/** What is between two entries, in minutes and seconds; it is stored when one leaves the field or presses Enter. */
export function GapField({
  gapSeconds,
  isFirst,
  isBusy,
  name,
  onChange,
}: {
  gapSeconds: number;
  isFirst: boolean;
  isBusy: boolean;
  name: string;
  onChange: (seconds: number) => void;
}) {
  const [text, setText] = useState(sayClock(gapSeconds));
  const [isWrong, setIsWrong] = useState(false);
  const commit = () => {
    const read = readGap(text);
    setIsWrong(read === null);
    if (read !== null && read !== gapSeconds) onChange(read);
  };
  return (
    <label className={styles.gap}>
      <span>{isFirst ? "before it, not counted" : "before it"}</span>
      <input
        value={text}
        inputMode="numeric"
        aria-label={`Before ${name}, minutes and seconds`}
        aria-invalid={isWrong || undefined}
        readOnly={isBusy}
        onChange={(event) => setText(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === "Enter") event.currentTarget.blur();
        }}
      />
      <span aria-live="polite">{isWrong && "Write it as 0:30."}</span>
    </label>
  );
}
