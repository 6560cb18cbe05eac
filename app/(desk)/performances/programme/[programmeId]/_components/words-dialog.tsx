"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { TextField } from "@/app/_ui/field";
import styles from "@/app/(desk)/_performances/dialog-form.module.css";
import { clockProblem, finer, readTypedClock } from "@/app/(desk)/_performances/read-log";
import { sayClock } from "@/lib/score/say-clock";
import type { WordsItem } from "./programme-items";

/** Something on the programme that is not prepared here: in words, with its length. */
export function WordsDialog({
  stood,
  isBusy,
  onClose,
  onWrite,
}: {
  /** Null for a new one. */
  stood: Pick<WordsItem, "title" | "plannedSeconds" | "realSeconds"> | null;
  isBusy: boolean;
  onClose: () => void;
  onWrite: (words: WordsItem) => void;
}) {
  const [wrong, setWrong] = useState<"planned" | "real" | null>(null);
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const planned = readTypedClock(String(form.get("planned")));
    const real = readTypedClock(String(form.get("real")));
    setWrong(planned === "wrong" ? "planned" : real === "wrong" ? "real" : null);
    if (planned === "wrong" || real === "wrong") return;
    const realSeconds = finer(real, stood?.realSeconds ?? null);
    onWrite({ kind: "words", title: String(form.get("title")), plannedSeconds: planned, realSeconds });
  };
  const clock = (seconds: number | null | undefined) => (seconds == null ? "" : sayClock(seconds));
  return (
    <Dialog title="In words" isOpen onClose={onClose}>
      <form className={styles.form} onSubmit={submit}>
        <TextField
          label="What is played"
          name="title"
          maxLength={200}
          placeholder="Two songs, unaccompanied"
          defaultValue={stood?.title}
          required
        />
        <div className={styles.pair}>
          <TextField
            label="How long"
            name="planned"
            inputMode="numeric"
            placeholder="4:00"
            defaultValue={clock(stood?.plannedSeconds)}
            problem={wrong === "planned" ? clockProblem : null}
          />
          <TextField
            label="Time by the clock"
            name="real"
            inputMode="numeric"
            hint="Once it was played."
            defaultValue={clock(stood?.realSeconds)}
            problem={wrong === "real" ? clockProblem : null}
          />
        </div>
        <p className={styles.buttons}>
          <Button type="submit" kind="settle" disabled={isBusy}>
            Write it down
          </Button>
          <Button kind="bare" onClick={onClose}>
            Not now
          </Button>
        </p>
      </form>
    </Dialog>
  );
}
