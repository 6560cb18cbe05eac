"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { readClock } from "@/app/_ui/clock";
import { TextField } from "@/app/_ui/field";
import { sayClock } from "@/lib/score/say-clock";
import { useAction } from "../../_components/use-action";
import { setLimitAction } from "../../actions/set-limit";
import styles from "./limit-form.module.css";

const unreadable = "Write minutes and seconds, such as 12:00.";

/** The limit, where it is planned for. Empty takes it away. */
export function LimitForm({
  pieceId,
  limitSeconds,
  mayChange,
  onSaved,
}: {
  pieceId: string;
  limitSeconds: number | null;
  mayChange: boolean;
  onSaved: () => void;
}) {
  const saved = limitSeconds === null ? "" : sayClock(limitSeconds);
  const [text, setText] = useState(saved);
  const [unread, setUnread] = useState<string | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  if (!mayChange) {
    return limitSeconds === null ? <p className={styles.ask}>No limit is set. The players set it.</p> : null;
  }
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const seconds = text.trim() === "" ? null : readClock(text);
    if (text.trim() !== "" && seconds === null) return setUnread(unreadable);
    setUnread(null);
    const answer = await run(setLimitAction, { pieceId, limitSeconds: seconds });
    if (!answer.ok) return;
    onSaved();
    announce(seconds === null ? "The limit is lifted." : `Limit ${sayClock(seconds)}.`);
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      {limitSeconds === null && <p className={styles.ask}>No limit is set. How long may it be?</p>}
      <TextField
        label="Limit"
        inputMode="numeric"
        placeholder="12:00"
        value={text}
        problem={unread ?? problem}
        onChange={(event) => setText(event.target.value)}
      />
      <Button type="submit" small disabled={isBusy || text.trim() === saved}>
        Set limit
      </Button>
    </form>
  );
}
