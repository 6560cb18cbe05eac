"use client";

import { useState } from "react";
import { ButtonLink } from "@/app/_ui/button";
import { ChooseFile } from "@/app/_ui/choose-file";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { sendFile } from "../../new/_components/send-file";
import styles from "./bring-in.module.css";
import { broughtSchema, type LookedInto, lookedIntoSchema } from "./looked-into";
import { WhatIsIn } from "./what-is-in";
import { WhoAreYou } from "./who-are-you";

const unread = "The answer could not be read. Look under your pieces.";

/** Two things: the file, which is checked whole, and who of its people one is. */
export function BringIn({ initial }: { initial: string }) {
  const [file, setFile] = useState<File | null>(null);
  const [looked, setLooked] = useState<LookedInto | null>(null);
  const [sent, setSent] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [pieceId, setPieceId] = useState<string | null>(null);

  const send = async (address: string, chosen: File, fields: Readonly<Record<string, string>> = {}) => {
    const form = new FormData();
    form.set("file", chosen);
    for (const [name, value] of Object.entries(fields)) form.set(name, value);
    setProblem(null);
    setSent(0);
    const answer = await sendFile(address, form, setSent);
    setSent(null);
    if (!answer.ok) setProblem(answer.sentence);
    return answer.ok ? answer.value : null;
  };
  const look = async (chosen: File) => {
    setFile(chosen);
    setLooked(null);
    const answer = await send("/api/pieces/archive/look", chosen);
    if (answer === null) return;
    const read = lookedIntoSchema.safeParse(answer);
    if (read.success) setLooked(read.data);
    else setProblem("The answer could not be read. Choose the file once more.");
  };
  const bring = async (who: string) => {
    if (!file) return;
    const answer = await send("/api/pieces/archive", file, { who });
    if (answer === null) return;
    const brought = broughtSchema.safeParse(answer);
    if (brought.success) setPieceId(brought.data.pieceId);
    else setProblem(unread);
  };

  return (
    <main className={styles.page} id="main">
      <h1>Bring in a piece that was taken away</h1>
      <p className={styles.below}>
        From this server or another. It is checked whole first, and becomes a piece of its own beside those
        you have.
      </p>
      <section className={styles.step}>
        <h2>The file</h2>
        {pieceId === null && (
          <ChooseFile
            file={file}
            accept=".zip,application/zip"
            hint="The .zip file that was saved under “Take it with you”. Or drop it here."
            isBusy={sent !== null}
            onChoose={look}
          />
        )}
        {sent !== null && (
          <Progress
            words={sent < 1 ? "Sending the file…" : looked ? "Bringing it in…" : "Checking every file in it…"}
            done={sent < 1 ? sent : null}
          />
        )}
        {problem && <SayProblem>{problem}</SayProblem>}
        {looked?.isWhole === false && <Faults faults={looked.faults} />}
        {looked?.isWhole && <WhatIsIn piece={looked.preview} />}
      </section>
      {looked?.isWhole && (
        <section className={styles.step}>
          <h2>{pieceId === null ? "Who are you in it?" : "The piece is here"}</h2>
          {pieceId === null ? (
            <WhoAreYou
              people={looked.preview.people}
              initial={initial}
              isBusy={sent !== null}
              onBring={bring}
            />
          ) : (
            <>
              <p>
                The other players come in by an invitation: you find it under Settings, People. What they said
                before stays under their names.
              </p>
              <p className={styles.buttons}>
                <ButtonLink kind="settle" href={`/pieces/${pieceId}`}>
                  Read the piece
                </ButtonLink>
                <ButtonLink href={`/pieces/${pieceId}/settings#people`}>Invite the others</ButtonLink>
              </p>
            </>
          )}
        </section>
      )}
    </main>
  );
}

/** More would not be read; the first ones say where to look. */
const mostShown = 20;

function Faults({ faults }: { faults: readonly string[] }) {
  return (
    <SayProblem>
      <p>
        <b>It cannot be brought in: it is not as it was packed.</b> Nothing was stored. Ask for another copy.
      </p>
      <ul className={styles.faults}>
        {faults.slice(0, mostShown).map((fault) => (
          <li key={fault}>{fault}</li>
        ))}
        {faults.length > mostShown && <li>And {faults.length - mostShown} more.</li>}
      </ul>
    </SayProblem>
  );
}
