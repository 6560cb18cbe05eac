"use client";

import type { FormEvent } from "react";
import { useDeviceText } from "@/app/_practice/use-device-text";
import { Button } from "@/app/_ui/button";
import { TextArea } from "@/app/_ui/field";
import styles from "./hint-form.module.css";

/** As the server takes it. */
const longestHint = 1000;

/** The duo's own words for an instrument. What is typed stays on the device until it is kept or left. */
export function HintForm({
  name,
  text,
  draftName,
  isBusy,
  problem,
  onKeep,
  onUsual,
  onLeave,
}: {
  /** "flute". */
  name: string;
  text: string;
  draftName: string;
  isBusy: boolean;
  problem: string | null;
  /** Resolves with whether it was kept. */
  onKeep: (text: string) => Promise<boolean>;
  /** Back to the usual words; null while they hold. */
  onUsual: (() => Promise<boolean>) | null;
  onLeave: () => void;
}) {
  const [draft, setDraft] = useDeviceText(draftName);
  const shown = draft === "" ? text : draft;
  const keep = async (event: FormEvent) => {
    event.preventDefault();
    if (await onKeep(shown.trim())) setDraft("");
  };
  const leave = () => {
    setDraft("");
    onLeave();
  };
  return (
    <form className={styles.form} onSubmit={keep}>
      <TextArea
        label={`Sounding like the ${name}`}
        isLabelHidden
        autoFocus
        maxLength={longestHint}
        value={shown}
        problem={problem}
        onChange={(event) => setDraft(event.target.value === "" ? " " : event.target.value)}
      />
      <p className={styles.buttons}>
        <Button
          kind="settle"
          small
          type="submit"
          disabled={isBusy || shown.trim() === "" || shown.trim() === text}
        >
          Keep for both
        </Button>
        {onUsual && (
          <Button small disabled={isBusy} onClick={async () => (await onUsual()) && setDraft("")}>
            The usual words again
          </Button>
        )}
        <Button kind="bare" small onClick={leave}>
          Leave it
        </Button>
      </p>
    </form>
  );
}
