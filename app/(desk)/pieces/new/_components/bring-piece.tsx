"use client";

import { useState } from "react";
import { z } from "zod";
import type { SourcePreview } from "@/app/_data/source-preview";
import { ButtonLink } from "@/app/_ui/button";
import { setPartRolesAction } from "@/app/(desk)/pieces/[pieceId]/actions/set-part-roles";
import type { PartRole } from "@/lib/score/part";
import styles from "./bring-piece.module.css";
import { ChooseSeat, type PlayedHere } from "./choose-seat";
import { InvitePartner } from "./invite-partner";
import { sendFile } from "./send-file";
import { type AboutPiece, TheFile } from "./the-file";

const createdSchema = z.object({ pieceId: z.string() });

/** Three things, then the piece can be read: who plays what, the file, the partner. */
export function BringPiece({ initial }: { initial: string }) {
  const [seat, setSeat] = useState<PlayedHere>("pianist");
  const [file, setFile] = useState<File | null>(null);
  const [preview, setPreview] = useState<SourcePreview | null>(null);
  const [sent, setSent] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [pieceId, setPieceId] = useState<string | null>(null);

  const look = async (chosen: File) => {
    setFile(chosen);
    setPreview(null);
    setProblem(null);
    const form = new FormData();
    form.set("file", chosen);
    setSent(0);
    const answer = await sendFile("/api/pieces/preview", form, setSent);
    setSent(null);
    if (answer.ok) setPreview(answer.value as SourcePreview);
    else setProblem(answer.sentence);
  };

  const bring = async (about: AboutPiece) => {
    if (!file || !preview) return;
    const form = new FormData();
    form.set("file", file);
    form.set("role", seat);
    form.set("title", about.title);
    form.set("instrument", about.instrument);
    setProblem(null);
    setSent(0);
    const answer = await sendFile("/api/pieces", form, setSent);
    setSent(null);
    const created = createdSchema.safeParse(answer.ok ? answer.value : null);
    if (!created.success)
      return setProblem(
        answer.ok ? "The answer could not be read. Look under your pieces." : answer.sentence,
      );
    setPieceId(created.data.pieceId);
    if (hasChanged(preview, about.roles)) {
      const set = await setPartRolesAction({ pieceId: created.data.pieceId, partRoles: about.roles });
      if (!set.ok) setProblem(`The piece is here, but its parts stand as they were found: ${set.sentence}`);
    }
  };

  return (
    <main className={styles.page} id="main">
      <h1>Three things, then you can read</h1>
      <div className={styles.steps}>
        <Step number={1} title="What do you play here?" isOpen>
          <ChooseSeat seat={seat} initial={initial} isFixed={pieceId !== null} onChoose={setSeat} />
        </Step>
        <Step number={2} title="The piece" isOpen>
          <TheFile
            file={file}
            preview={preview}
            sent={sent}
            problem={problem}
            isBrought={pieceId !== null}
            onChoose={look}
            onBring={bring}
          />
        </Step>
        <Step
          number={3}
          title={
            seat === "pianist"
              ? `Who plays the ${(preview?.soloName ?? "solo").toLowerCase()}?`
              : "Who plays the piano?"
          }
          isOpen={pieceId !== null}
        >
          {pieceId ? (
            <>
              <InvitePartner pieceId={pieceId} role={seat === "pianist" ? "soloist" : "pianist"} />
              <p className={styles.onward}>
                <ButtonLink kind="settle" href={`/pieces/${pieceId}`}>
                  Read the piece
                </ButtonLink>
              </p>
            </>
          ) : (
            <p className={styles.quiet}>When the piece is right, you get a link for them here.</p>
          )}
        </Step>
      </div>
    </main>
  );
}

function hasChanged(preview: SourcePreview, roles: Readonly<Record<string, PartRole>>): boolean {
  return preview.parts.some(({ id, role }) => roles[id] !== role);
}

function Step({
  number,
  title,
  isOpen,
  children,
}: {
  number: number;
  title: string;
  isOpen: boolean;
  children: React.ReactNode;
}) {
  return (
    <section className={isOpen ? styles.step : styles.later}>
      <p className={styles.number} aria-hidden="true">
        {number}
      </p>
      <div className={styles.body}>
        <h2>{title}</h2>
        {children}
      </div>
    </section>
  );
}
