"use client";

import { type FormEvent, useState } from "react";
import type { FoundPlace } from "@/app/_data/editions/editions-view";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { type SideName, saySide } from "@/lib/edition/choose-sides";
import styles from "./place-finder.module.css";
import { useAsked } from "./use-asked";

/** Type a bar of the page, and see where it is in each version. The address keeps the question. */
export function PlaceFinder({
  place,
  compared,
}: {
  place: FoundPlace | null;
  /** The two that are compared: they are named first. */
  compared: readonly SideName[];
}) {
  const { ask, isAsking } = useAsked();
  const [text, setText] = useState(place?.asked ?? "");
  const submit = (event: FormEvent) => {
    event.preventDefault();
    ask({ bar: text.trim() === "" ? null : text.trim() });
  };
  const sides = (place?.sides ?? []).toSorted(
    (a, b) => Number(compared.includes(b.name)) - Number(compared.includes(a.name)),
  );
  return (
    <section className={styles.finder} aria-label="Find a bar">
      <form onSubmit={submit} className={styles.form}>
        <TextField
          label="Where is bar"
          inputMode="text"
          autoComplete="off"
          maxLength={12}
          value={text}
          problem={place?.problem}
          onChange={(event) => setText(event.target.value)}
        />
        <Button type="submit" small disabled={isAsking}>
          Find it
        </Button>
      </form>
      {place && place.problem === null && (
        <dl className={styles.sides} aria-live="polite">
          {sides.map(({ name, words, isCut, of }) => (
            <div key={name} data-cut={isCut || undefined}>
              <dt>{saySide(name)}</dt>
              <dd>
                bar {place.label} is <b>{words}</b>
                {!isCut && <small> of {of}</small>}
              </dd>
            </div>
          ))}
        </dl>
      )}
    </section>
  );
}
