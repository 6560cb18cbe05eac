"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "../../_components/use-action";
import { deletePieceAction } from "../../actions/delete-piece";
import { Section } from "./section";
import styles from "./take-away-settings.module.css";

/** Deleting the piece: asked once by a button, and once more by its title, written by hand. */
export function DeleteSettings({ pieceId, title }: { pieceId: string; title: string }) {
  const [isAsking, setIsAsking] = useState(false);
  return (
    <Section
      id="delete"
      title="Delete the piece"
      about="It goes from everybody’s list at once, and its reader links and invitations stop working. For 30 days either player can bring it back, as it was, from the list of pieces. After that it is gone."
    >
      <div className={styles.buttons}>
        <Button onClick={() => setIsAsking(true)}>
          <Icon name="trash" /> Delete the piece…
        </Button>
      </div>
      <Dialog title="Delete the piece" isOpen={isAsking} onClose={() => setIsAsking(false)}>
        <AskTitle pieceId={pieceId} title={title} onStay={() => setIsAsking(false)} />
      </Dialog>
    </Section>
  );
}

function AskTitle({ pieceId, title, onStay }: { pieceId: string; title: string; onStay: () => void }) {
  const [written, setWritten] = useState("");
  const { run, isBusy, problem } = useAction();
  const router = useRouter();
  const isSame = fold(written) === fold(title);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const deleted = await run(deletePieceAction, { pieceId, title: written });
    if (deleted.ok) router.push("/");
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      <p>
        <b>{title}</b> goes from the lists of all who belong to it. Save it first if you want to keep a copy
        beyond 30 days.
      </p>
      <TextField
        label="Write the title of the piece, so that it is the one you mean"
        value={written}
        autoComplete="off"
        onChange={(event) => setWritten(event.target.value)}
      />
      {problem && <SayProblem>{problem}</SayProblem>}
      <p className={styles.buttons}>
        <Button type="submit" kind="settle" disabled={isBusy || !isSame}>
          Delete it
        </Button>
        <Button onClick={onStay}>Keep it</Button>
      </p>
    </form>
  );
}

const fold = (text: string) => text.normalize("NFC").trim().replace(/\s+/gu, " ").toLocaleLowerCase();
