"use client";

import { type FormEvent, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { BreathDesk } from "@/app/_data/desk/read-breath";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { WithFlats } from "@/app/_ui/music-sign";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import type { BreathPreferences } from "@/lib/breath/breath-preferences";
import { firstName, soloistOf } from "../../_components/person";
import { useAction } from "../../_components/use-action";
import { setBreathPreferencesAction } from "../../actions/set-breath-preferences";
import styles from "./my-numbers.module.css";
import { type NumbersText, readNumbers, writeNumbers } from "./read-numbers";
import { sayAbout } from "./say-breath";

/** The soloist's own numbers, from which what is long and what is short is judged. */
export function MyNumbers({ desk, breath }: { desk: Desk; breath: BreathDesk }) {
  const [isEditing, setIsEditing] = useState(false);
  const soloist = soloistOf(desk);
  const title = breath.maySetRests ? "My numbers" : soloist ? `${firstName(soloist)}’s numbers` : "Numbers";
  const numbers = breath.preferences ?? breath.defaults;
  const instrument = desk.soloName;
  return (
    <Sheet className={styles.numbers} aria-label={title}>
      <h2>{title}</h2>
      {isEditing ? (
        <NumbersForm desk={desk} breath={breath} onDone={() => setIsEditing(false)} />
      ) : (
        <>
          <dl className={styles.list}>
            <dt>Comfortable on one breath</dt>
            <dd>{sayComfortable(numbers)}</dd>
            <dt>Rest wanted for playing</dt>
            <dd>{sayRatio(numbers)}</dd>
          </dl>
          <p className={styles.from}>
            {breath.preferences === null ? (
              <WithFlats text={`The default for the instrument (${instrument}), not a norm.`} />
            ) : (
              <WithFlats
                text={`Own numbers. The default for the instrument (${instrument}): ${sayComfortable(breath.defaults)}; ${sayRatio(breath.defaults)}.`}
              />
            )}
          </p>
          {breath.maySetRests && (
            <Button small onClick={() => setIsEditing(true)}>
              Set my numbers
            </Button>
          )}
        </>
      )}
      <p className={styles.caution}>
        These are guides, not medical advice. Pain, numbness or voice trouble is a reason to stop and ask a
        teacher or a clinician.
      </p>
    </Sheet>
  );
}

function sayComfortable({ comfortableSeconds }: BreathPreferences): string {
  return comfortableSeconds === null ? "not set" : sayAbout(comfortableSeconds);
}

function sayRatio({ restPerPlayed, windowSeconds }: BreathPreferences): string {
  if (restPerPlayed === null) return "not set";
  return `${restPerPlayed} s for each second, within ${sayAbout(windowSeconds)}`;
}

const fields: readonly { name: keyof NumbersText; label: string; hint: string }[] = [
  {
    name: "comfortable",
    label: "Comfortable on one breath, in seconds",
    hint: "Empty where playing needs no breath.",
  },
  {
    name: "restPerPlayed",
    label: "Seconds of rest for each second played",
    hint: "1 is as much rest as playing. Empty when it does not matter.",
  },
  { name: "window", label: "Counted over, in seconds", hint: "The stretch in which the two are compared." },
  { name: "catch", label: "A rest is a breath from, in seconds", hint: "Shorter ones count as playing." },
];

function NumbersForm({ desk, breath, onDone }: { desk: Desk; breath: BreathDesk; onDone: () => void }) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const [text, setText] = useState(() => writeNumbers(breath.preferences ?? breath.defaults));
  const [isWrong, setIsWrong] = useState(false);
  const send = async (preferences: BreathPreferences | null) => {
    const answer = await run(setBreathPreferencesAction, { pieceId: desk.pieceId, preferences });
    if (!answer.ok) return;
    announce("Your numbers are kept.");
    onDone();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = readNumbers(text);
    setIsWrong(read === null);
    if (read) void send(read);
  };
  return (
    <form className={styles.form} onSubmit={submit}>
      {fields.map(({ name, label, hint }) => (
        <TextField
          key={name}
          label={label}
          hint={hint}
          inputMode="decimal"
          value={text[name]}
          onChange={(event) => setText({ ...text, [name]: event.target.value })}
        />
      ))}
      {isWrong && <SayProblem>Write plain numbers of seconds: 12, or 0.3. Nothing was changed.</SayProblem>}
      {problem && <SayProblem>{problem}</SayProblem>}
      <div className={styles.buttons}>
        <Button type="submit" kind="settle" small disabled={isBusy}>
          Keep these numbers
        </Button>
        {breath.preferences !== null && (
          <Button small disabled={isBusy} onClick={() => send(null)}>
            Back to the default
          </Button>
        )}
        <Button kind="bare" small onClick={onDone}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
