"use client";

import { useState, useTransition } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { inviteToPieceAction } from "@/app/(desk)/pieces/[pieceId]/actions/invite-to-piece";
import styles from "./bring-piece.module.css";

/** Makes the link that brings the other player to the piece. */
export function InvitePartner({ pieceId, role }: { pieceId: string; role: "pianist" | "soloist" }) {
  const [link, setLink] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [isCopied, setCopied] = useState(false);
  const [isPending, startTransition] = useTransition();

  const make = () =>
    startTransition(async () => {
      const invited = await inviteToPieceAction({ pieceId, role });
      if (invited.ok) setLink(invited.value.link);
      else setProblem(invited.sentence);
    });

  if (link === null) {
    return (
      <>
        {problem && <SayProblem>{problem}</SayProblem>}
        <Button onClick={make} disabled={isPending}>
          <Icon name="link" /> Make a link for them
        </Button>
        <p className={styles.quiet}>Or later, under Settings on the piece.</p>
      </>
    );
  }
  const copy = async () => {
    await navigator.clipboard.writeText(link);
    setCopied(true);
  };
  return (
    <div className={styles.link}>
      <TextField
        label="Their link"
        value={link}
        readOnly
        onFocus={(event) => event.target.select()}
        hint="It opens the piece to one person, once, within two weeks. It is shown only here."
      />
      <Button onClick={copy}>{isCopied ? "Copied" : "Copy"}</Button>
    </div>
  );
}
