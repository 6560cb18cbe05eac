"use client";

import type { FormEvent } from "react";
import type { SourcePreview } from "@/app/_data/source-preview";
import { Button } from "@/app/_ui/button";
import { ChooseFile } from "@/app/_ui/choose-file";
import { SelectField, TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import type { PartRole } from "@/lib/score/part";
import styles from "./bring-piece.module.css";
import { Found } from "./found";

export interface AboutPiece {
  readonly title: string;
  readonly instrument: string;
  readonly roles: Readonly<Record<string, PartRole>>;
}

const roleWords: Readonly<Record<PartRole, string>> = {
  solo: "the solo",
  reduction: "the reduction (piano)",
  orchestra: "orchestra",
  other: "something else",
};

/** Choosing the file, seeing what was read in it, and saying that it is right. */
export function TheFile({
  file,
  preview,
  sent,
  problem,
  isBrought,
  onChoose,
  onBring,
}: {
  file: File | null;
  preview: SourcePreview | null;
  sent: number | null;
  problem: string | null;
  isBrought: boolean;
  onChoose: (file: File) => void;
  onBring: (about: AboutPiece) => void;
}) {
  return (
    <>
      {!isBrought && (
        <ChooseFile
          accept=".musicxml,.mxl,.xml,application/vnd.recordare.musicxml,application/vnd.recordare.musicxml+xml"
          hint="MusicXML (.musicxml or .mxl) with the solo part and the reduction. Or drop it here."
          file={file}
          onChoose={onChoose}
        />
      )}
      {sent !== null && (
        <Progress
          words={sent < 1 ? "Sending the file…" : preview ? "Keeping it…" : "Reading every bar…"}
          done={sent < 1 ? sent : null}
        />
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
      {preview && (
        <>
          <Found preview={preview} />
          {isBrought ? (
            <p className={styles.chosen}>
              <Icon name="check" /> <b>The piece is here</b>
              {file && `, read from ${file.name}`}.
            </p>
          ) : (
            <AboutForm key={file?.name} preview={preview} isBusy={sent !== null} onBring={onBring} />
          )}
        </>
      )}
    </>
  );
}

function AboutForm({
  preview,
  isBusy,
  onBring,
}: {
  preview: SourcePreview;
  isBusy: boolean;
  onBring: (about: AboutPiece) => void;
}) {
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const roles = Object.fromEntries(
      preview.parts.map(({ id }, index) => [id, String(form.get(`role-${index}`)) as PartRole]),
    );
    onBring({ title: String(form.get("title")), instrument: String(form.get("instrument")), roles });
  };
  return (
    <form className={styles.about} onSubmit={submit}>
      <div className={styles.pair}>
        <TextField
          label="Title"
          name="title"
          defaultValue={preview.title ?? preview.movement ?? ""}
          maxLength={200}
          required
        />
        <TextField
          label="Solo instrument"
          name="instrument"
          defaultValue={preview.soloName ?? ""}
          maxLength={200}
        />
      </div>
      <fieldset className={styles.parts}>
        <legend>Parts</legend>
        {preview.parts.map((part, index) => (
          <SelectField
            key={part.id}
            label={part.name || `Part ${index + 1}`}
            name={`role-${index}`}
            defaultValue={part.role}
            hint={`${part.noteCount.toLocaleString("en")} notes, ${part.staffCount === 1 ? "one staff" : `${part.staffCount} staves`}`}
          >
            {Object.entries(roleWords).map(([role, words]) => (
              <option key={role} value={role}>
                {words}
              </option>
            ))}
          </SelectField>
        ))}
      </fieldset>
      <p>
        <Button type="submit" kind="settle" disabled={isBusy}>
          <Icon name="check" /> That is right
        </Button>
      </p>
      <p className={styles.quiet}>
        Tempi and tuttis can be corrected on the piece itself. Many editions are in copyright: bring what you
        may copy.
      </p>
    </form>
  );
}
