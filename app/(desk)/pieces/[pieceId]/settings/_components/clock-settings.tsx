"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { readClock } from "@/app/_ui/clock";
import { TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { sayClock } from "@/lib/score/say-clock";
import { useAction } from "../../_components/use-action";
import { setLimitAction } from "../../actions/set-limit";
import { setLongTuttiBarsAction } from "../../actions/set-long-tutti-bars";
import styles from "./clock-settings.module.css";
import { Section } from "./section";

/** The time limit, and how many bars make a tutti long. */
export function ClockSettings({
  pieceId,
  limitSeconds,
  longTuttiBars,
  mayChange,
}: {
  pieceId: string;
  limitSeconds: number | null;
  longTuttiBars: number;
  mayChange: boolean;
}) {
  return (
    <Section
      id="limit"
      title="The clock"
      about="The time that a jury, a competition or an evening gives you. Leave it empty when the clock does not matter."
    >
      <div className={styles.two}>
        <LimitForm pieceId={pieceId} limitSeconds={limitSeconds} mayChange={mayChange} />
        <LongTuttiForm pieceId={pieceId} longTuttiBars={longTuttiBars} mayChange={mayChange} />
      </div>
    </Section>
  );
}

function LimitForm({
  pieceId,
  limitSeconds,
  mayChange,
}: {
  pieceId: string;
  limitSeconds: number | null;
  mayChange: boolean;
}) {
  const [text, setText] = useState(limitSeconds === null ? "" : sayClock(limitSeconds));
  const [unread, setUnread] = useState<string | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const seconds = text.trim() === "" ? null : readClock(text);
    if (text.trim() !== "" && seconds === null) return setUnread("Write minutes and seconds, such as 12:00.");
    setUnread(null);
    if ((await run(setLimitAction, { pieceId, limitSeconds: seconds })).ok) announce("Limit saved.");
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      <TextField
        label="Limit"
        hint="minutes:seconds"
        inputMode="numeric"
        value={text}
        problem={unread ?? problem}
        disabled={!mayChange}
        onChange={(event) => setText(event.target.value)}
      />
      <Button type="submit" disabled={!mayChange || isBusy}>
        Save
      </Button>
    </form>
  );
}

function LongTuttiForm({
  pieceId,
  longTuttiBars,
  mayChange,
}: {
  pieceId: string;
  longTuttiBars: number;
  mayChange: boolean;
}) {
  const [text, setText] = useState(`${longTuttiBars}`);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const saved = await run(setLongTuttiBarsAction, { pieceId, longTuttiBars: Number(text) });
    if (saved.ok) announce("Saved.");
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      <TextField
        label="A tutti is long from more than"
        hint="bars; 16 is common"
        inputMode="numeric"
        value={text}
        disabled={!mayChange}
        onChange={(event) => setText(event.target.value)}
      />
      <Button type="submit" disabled={!mayChange || isBusy}>
        Save
      </Button>
      {problem && <SayProblem>{problem}</SayProblem>}
    </form>
  );
}
