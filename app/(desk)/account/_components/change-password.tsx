"use client";

import { type FormEvent, useRef } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { useAction } from "../../pieces/[pieceId]/_components/use-action";
import { changePasswordAction } from "../actions/change-password";
import styles from "./account.module.css";

/** Another password. Whoever is signed in elsewhere is signed out there. */
export function ChangePassword() {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const form = useRef<HTMLFormElement>(null);
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const changed = await run(changePasswordAction, Object.fromEntries(new FormData(event.currentTarget)));
    if (!changed.ok) return;
    form.current?.reset();
    announce("The password is changed. Other devices are signed out.");
  };
  return (
    <Sheet className={styles.section} aria-labelledby="password">
      <h2 id="password">Password</h2>
      <p className={styles.about}>When you change it, every other device is signed out.</p>
      <form ref={form} className={styles.pair} onSubmit={submit}>
        <TextField
          label="Present password"
          name="password"
          type="password"
          autoComplete="current-password"
          required
        />
        <TextField
          label="New password"
          name="newPassword"
          type="password"
          autoComplete="new-password"
          hint="At least 10 characters."
          required
        />
        <div className={styles.wide}>
          {problem && <SayProblem>{problem}</SayProblem>}
          <p>
            <Button type="submit" disabled={isBusy}>
              Change it
            </Button>
          </p>
        </div>
      </form>
    </Sheet>
  );
}
