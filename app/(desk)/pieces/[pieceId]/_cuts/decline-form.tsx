"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextArea } from "@/app/_ui/field";
import styles from "./decline-form.module.css";

/** Asks why not, before a proposal is declined. @param to whoever put it forward. */
export function DeclineForm({
  to,
  isBusy,
  onCancel,
  onDecline,
}: {
  to: string;
  isBusy: boolean;
  onCancel: () => void;
  onDecline: (reason: string) => void;
}) {
  const [reason, setReason] = useState("");
  const submit = (event: FormEvent) => {
    event.preventDefault();
    onDecline(reason);
  };
  return (
    <form className={styles.decline} onSubmit={submit}>
      <TextArea
        label="Why not?"
        hint={`${to} reads it, so that another way can be found.`}
        value={reason}
        maxLength={2000}
        autoFocus
        onChange={(event) => setReason(event.target.value)}
      />
      <div className={styles.row}>
        <Button type="submit" kind="settle" disabled={isBusy || reason.trim() === ""}>
          Decline
        </Button>
        <Button kind="bare" onClick={onCancel}>
          Not yet
        </Button>
      </div>
    </form>
  );
}
