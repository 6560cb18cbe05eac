"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import styles from "./no-pieces.module.css";
import { readInvitationLink } from "./read-invitation-link";

/** For somebody whose link is in a letter and not under their finger. */
export function OpenInvitation() {
  const router = useRouter();
  const [isWrong, setIsWrong] = useState(false);
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const path = readInvitationLink(String(new FormData(event.currentTarget).get("link")));
    setIsWrong(path === null);
    if (path !== null) router.push(path);
  };
  return (
    <form className={styles.open} onSubmit={submit}>
      <TextField
        label="Their link"
        isLabelHidden
        name="link"
        inputMode="url"
        placeholder="Their link"
        problem={isWrong ? "This is no link of an invitation. Copy it whole." : null}
        required
      />
      <Button type="submit">Open</Button>
    </form>
  );
}
