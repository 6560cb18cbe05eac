"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState, useTransition } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { createAccountAction } from "@/app/sign-in/actions/create-account";
import { signInAction } from "@/app/sign-in/actions/sign-in";
import styles from "./sign-in-form.module.css";

/** Signing in, and opening an account: the same sheet, turned over. */
export function SignInForm({ returnPath }: { returnPath: string }) {
  const router = useRouter();
  const [isNew, setIsNew] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const [isPending, startTransition] = useTransition();

  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const input = Object.fromEntries(new FormData(event.currentTarget));
    startTransition(async () => {
      const result = isNew ? await createAccountAction(input) : await signInAction(input);
      if (!result.ok) return setProblem(result.sentence);
      router.replace(returnPath);
      router.refresh();
    });
  };

  return (
    <form className={styles.sheet} onSubmit={submit} aria-label={isNew ? "New account" : "Sign in"}>
      {isNew && (
        <TextField
          label="Your name"
          name="name"
          autoComplete="name"
          hint="As it should stand under an edition."
          required
        />
      )}
      <TextField label="Your e-mail" name="email" type="email" autoComplete="username" required />
      <TextField
        label="Password"
        name="password"
        type="password"
        autoComplete={isNew ? "new-password" : "current-password"}
        hint={isNew ? "At least 10 characters." : undefined}
        required
      />
      {problem && <SayProblem>{problem}</SayProblem>}
      <Button type="submit" kind="settle" disabled={isPending}>
        {isNew ? "Open an account" : "Sign in"}
      </Button>
      <p className={styles.turn}>
        {isNew ? "You have an account? " : "New here? "}
        <button
          type="button"
          onClick={() => {
            setIsNew(!isNew);
            setProblem(null);
          }}
        >
          {isNew ? "Sign in" : "Open an account"}
        </button>
      </p>
      <p className={styles.fine}>Invited by a colleague? Open the link they sent you; it brings you here.</p>
    </form>
  );
}
