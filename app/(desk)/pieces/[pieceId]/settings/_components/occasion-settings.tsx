"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { useAction } from "../../_components/use-action";
import { nameOccasionAction } from "../../actions/name-occasion";
import styles from "./clock-settings.module.css";
import { Section } from "./section";

/** What the piece is prepared for, as its switch and the list of pieces name it. */
export function OccasionSettings({
  pieceId,
  occasion,
  mayChange,
}: {
  pieceId: string;
  /** Null while nobody has named it. */
  occasion: string | null;
  mayChange: boolean;
}) {
  const [name, setName] = useState(occasion ?? "");
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const named = await run(nameOccasionAction, { pieceId, name, stood: occasion });
    if (named.ok) announce(`It is for “${named.value.name}” now.`);
  };
  return (
    <Section
      id="occasion"
      title="The occasion"
      about="What this piece is prepared for, beside others of the same music. Only the name changes: editions and performances stay as they are, and the earlier name stays on record."
    >
      <form className={styles.form} onSubmit={submit}>
        <TextField
          label="It is for"
          placeholder="Jury"
          required
          maxLength={40}
          value={name}
          problem={problem}
          disabled={!mayChange}
          onChange={(event) => setName(event.target.value)}
        />
        <Button type="submit" disabled={!mayChange || isBusy}>
          Save
        </Button>
      </form>
    </Section>
  );
}
