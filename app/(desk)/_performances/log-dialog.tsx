"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { SelectField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { logPerformanceAction } from "@/app/(desk)/pieces/[pieceId]/actions/log-performance";
import styles from "./dialog-form.module.css";
import { PerformanceFields } from "./performance-fields";
import { readLog, type WrongClock } from "./read-log";

/** A piece whose performances the viewer may log. Its editions are numbered from 1. */
export interface LoggablePiece {
  readonly id: string;
  readonly title: string;
  readonly lastEdition: number;
  readonly limitSeconds: number | null;
}

/** Writes down an occasion, played or to come. */
export function LogDialog({
  pieces,
  today,
  onClose,
}: {
  pieces: readonly LoggablePiece[];
  /** ISO 8601 date. */
  today: string;
  onClose: () => void;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const [wrongClock, setWrongClock] = useState<WrongClock | null>(null);
  const [piece, setPiece] = useState(pieces[0]);
  if (!piece) return null;
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const read = readLog(new FormData(event.currentTarget));
    setWrongClock(read.ok ? null : read.problem);
    if (!read.ok) return;
    const logged = await run(logPerformanceAction, { ...read.value, pieceId: piece.id });
    if (!logged.ok) return;
    announce(`Logged: ${logged.value.name}.`);
    onClose();
  };
  return (
    <Dialog title="Log a performance" isOpen onClose={onClose}>
      <form className={styles.form} onSubmit={submit}>
        {pieces.length > 1 && (
          <SelectField
            label="Piece"
            value={piece.id}
            onChange={(event) => setPiece(pieces.find(({ id }) => id === event.target.value))}
          >
            {pieces.map(({ id, title }) => (
              <option key={id} value={id}>
                {title}
              </option>
            ))}
          </SelectField>
        )}
        <PerformanceFields
          key={piece.id}
          lastEdition={piece.lastEdition}
          limitSeconds={piece.limitSeconds}
          stood={null}
          today={today}
          wrongClock={wrongClock}
        />
        {problem && <SayProblem>{problem}</SayProblem>}
        <p className={styles.buttons}>
          <Button type="submit" kind="settle" disabled={isBusy}>
            Log it
          </Button>
          <Button kind="bare" onClick={onClose}>
            Not now
          </Button>
        </p>
      </form>
    </Dialog>
  );
}
