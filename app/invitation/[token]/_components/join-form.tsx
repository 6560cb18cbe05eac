"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState, useTransition } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { acceptInvitationAction } from "../actions/accept-invitation";
import { joinWithAccountAction } from "../actions/join-with-account";
import styles from "../page.module.css";

/** Joins with the account that is signed in, or with a new one. */
export function JoinForm({ token, signedInAs }: { token: string; signedInAs: string | null }) {
  const router = useRouter();
  const [problem, setProblem] = useState<string | null>(null);
  const [isPending, startTransition] = useTransition();
  const signIn = `/sign-in?to=${encodeURIComponent(`/invitation/${token}`)}`;

  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const account = Object.fromEntries(new FormData(event.currentTarget));
    startTransition(async () => {
      const joined = signedInAs
        ? await acceptInvitationAction({ token })
        : await joinWithAccountAction({ ...account, token });
      if (!joined.ok) return setProblem(joined.sentence);
      router.replace(`/pieces/${joined.value.pieceId}`);
    });
  };

  return (
    <form className={styles.form} onSubmit={submit}>
      {signedInAs === null && (
        <>
          <TextField label="Your name" name="name" autoComplete="name" required />
          <TextField label="Your e-mail" name="email" type="email" autoComplete="username" required />
          <TextField
            label="Password"
            name="password"
            type="password"
            autoComplete="new-password"
            hint="At least 10 characters."
            required
          />
        </>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
      <Button type="submit" kind="settle" disabled={isPending}>
        {signedInAs ? `Join as ${signedInAs}` : "Open an account and join"}
      </Button>
      {signedInAs === null && <ButtonLink href={signIn}>I have an account: sign in</ButtonLink>}
    </form>
  );
}
