"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { SelectField, TextArea, TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { logPerformanceAction } from "@/app/(desk)/pieces/[pieceId]/actions/log-performance";
import { sayClock } from "@/lib/score/say-clock";
import styles from "./dialog-form.module.css";
import { clockProblem, readLog } from "./read-log";
import { occasionWords } from "./say-performance";

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
  const [wrongClock, setWrongClock] = useState<"limit" | "real" | null>(null);
  const [on, setOn] = useState(today);
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
        <TextField
          label="What was it, or is it going to be?"
          name="name"
          maxLength={200}
          placeholder="First round, spring recital…"
          required
        />
        <div className={styles.pair}>
          <SelectField label="Kind" name="kind" defaultValue="recital">
            {Object.entries(occasionWords).map(([kind, words]) => (
              <option key={kind} value={kind}>
                {words}
              </option>
            ))}
          </SelectField>
          <TextField
            label="On"
            name="on"
            type="date"
            value={on}
            onChange={(event) => setOn(event.target.value)}
            required
          />
        </div>
        <div className={styles.pair}>
          <SelectField
            key={piece.id}
            label="Edition"
            name="editionNumber"
            defaultValue={String(piece.lastEdition)}
          >
            {Array.from({ length: piece.lastEdition }, (_, index) => piece.lastEdition - index).map(
              (number) => (
                <option key={number} value={number}>
                  № {number}
                </option>
              ),
            )}
          </SelectField>
          <TextField
            key={`limit ${piece.id}`}
            label="Limit"
            name="limit"
            inputMode="numeric"
            placeholder="none"
            defaultValue={piece.limitSeconds === null ? "" : sayClock(piece.limitSeconds)}
            hint="Minutes and seconds; empty for none."
            problem={wrongClock === "limit" ? clockProblem : null}
          />
        </div>
        <TextField label="Where" name="place" maxLength={200} />
        {on <= today && (
          <>
            <TextField
              label="Time by the clock"
              name="real"
              inputMode="numeric"
              placeholder="8:52"
              hint="From the first sound to the last. It can be entered later."
              problem={wrongClock === "real" ? clockProblem : null}
            />
            <TextArea label="To remember" name="remarks" maxLength={2000} />
          </>
        )}
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
