"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { useAction } from "../../pieces/[pieceId]/_components/use-action";
import { removeAccountAction } from "../actions/remove-account";
import styles from "./account.module.css";

/** Leaving for good: asked once by a button, and once more with the password. */
export function RemoveAccount({ name }: { name: string }) {
  const [isAsking, setIsAsking] = useState(false);
  return (
    <Sheet className={styles.section} aria-labelledby="remove-account">
      <h2 id="remove-account">Remove the account</h2>
      <p className={styles.about}>
        Your address and your password are erased and you leave all your pieces. What you agreed to stays
        agreed. This cannot be undone.
      </p>
      <p>
        <Button onClick={() => setIsAsking(true)}>
          <Icon name="leave" /> Remove the account…
        </Button>
      </p>
      <Dialog title="Remove the account" isOpen={isAsking} onClose={() => setIsAsking(false)}>
        <AskPassword name={name} onStay={() => setIsAsking(false)} />
      </Dialog>
    </Sheet>
  );
}

function AskPassword({ name, onStay }: { name: string; onStay: () => void }) {
  const { run, isBusy, problem } = useAction();
  const [names, setNames] = useState<"keep" | "replace">("keep");
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const password = String(new FormData(event.currentTarget).get("password"));
    const removed = await run(removeAccountAction, { password, names });
    // The sign-in page forgets what was kept on this device.
    if (removed.ok) location.assign("/sign-in");
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      <ul>
        <li>
          You leave every piece at once. The other player goes on with it, and can invite somebody else.
        </li>
        <li>A piece to which nobody else belongs is deleted.</li>
        <li>Frozen editions keep your name under them: an edition never changes.</li>
      </ul>
      <fieldset className={styles.names}>
        <legend>On what you said and answered</legend>
        <label>
          <input type="radio" name="names" checked={names === "keep"} onChange={() => setNames("keep")} />
          <span>My name stays: {name}</span>
        </label>
        <label>
          <input
            type="radio"
            name="names"
            checked={names === "replace"}
            onChange={() => setNames("replace")}
          />
          <span>My name is replaced by what I was, such as “the soloist”</span>
        </label>
      </fieldset>
      <TextField
        label="Your password"
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      {problem && <SayProblem>{problem}</SayProblem>}
      <p className={styles.buttons}>
        <Button type="submit" kind="settle" disabled={isBusy}>
          Remove my account
        </Button>
        <Button onClick={onStay}>Stay</Button>
      </p>
    </form>
  );
}
