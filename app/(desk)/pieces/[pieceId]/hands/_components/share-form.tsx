"use client";

import { type FormEvent, useId, useState } from "react";
import type { DeskSharing } from "@/app/_data/desk/hands-desk";
import { Button } from "@/app/_ui/button";
import { SelectField, TextArea } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import styles from "./share-form.module.css";

export interface Shared {
  readonly sharing: DeskSharing;
  readonly reason: string;
  readonly shown: "ossia" | "in place";
}

/** Who is to see what the pianist plays here, and why it is better to ask where it is. */
export function ShareForm({
  other,
  suggested,
  why,
  shown: shownFirst,
  isBusy,
  problem,
  onShare,
  onLeave,
}: {
  /** The other player's first name. */
  other: string;
  suggested: DeskSharing;
  /** Why that is suggested. */
  why: string;
  /** How it is printed; null when that is settled already. */
  shown: "ossia" | "in place" | null;
  isBusy: boolean;
  problem: string | null;
  onShare: (shared: Shared) => void;
  onLeave: () => void;
}) {
  const [sharing, setSharing] = useState(suggested);
  const [reason, setReason] = useState("");
  const [shown, setShown] = useState(shownFirst ?? "ossia");
  const name = useId();
  const choices: readonly { value: DeskSharing; label: string; says: string; press: string }[] = [
    { value: "only_me", label: "Only me", says: "In no edition; nobody else sees it.", press: "Keep it" },
    {
      value: "told",
      label: `Tell ${other}`,
      says: `It goes into the edition; ${other} sees it.`,
      press: `Tell ${other}`,
    },
    {
      value: "asked",
      label: `Ask ${other}`,
      says: `It goes into the edition once ${other} agrees.`,
      press: `Ask ${other}`,
    },
  ];
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onShare({ sharing, reason, shown });
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      <fieldset>
        <legend>Who is to know?</legend>
        <div className={styles.choices}>
          {choices.map(({ value, label, says }) => (
            <label key={value} className={styles.choice}>
              <input
                type="radio"
                name={name}
                value={value}
                checked={value === sharing}
                onChange={() => setSharing(value)}
              />
              <span>
                <b>{label}</b>
                <small>{says}</small>
              </span>
            </label>
          ))}
        </div>
      </fieldset>
      <p className={styles.why}>{why}</p>
      <div className={styles.more}>
        {sharing !== "only_me" && (
          <TextArea
            label={`A word to ${other}`}
            hint="May stay empty."
            value={reason}
            maxLength={2000}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
        {shownFirst !== null && (
          <SelectField
            label="In the edition"
            value={shown}
            onChange={(event) => setShown(event.target.value as "ossia" | "in place")}
          >
            <option value="ossia">over the staff, as an ossia</option>
            <option value="in place">in place of the print</option>
          </SelectField>
        )}
      </div>
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.buttons}>
        <Button type="submit" kind="settle" disabled={isBusy}>
          {choices.find(({ value }) => value === sharing)?.press}
        </Button>
        <Button kind="bare" onClick={onLeave}>
          Not yet
        </Button>
      </div>
    </form>
  );
}
