"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { WhoMark } from "@/app/_ui/who-mark";
import styles from "./bring-in.module.css";
import type { PieceFile } from "./looked-into";

/** Who of the people in the piece brings it in, or that they are none of them. */
export function WhoAreYou({
  people,
  initial,
  isBusy,
  onBring,
}: {
  people: PieceFile["people"];
  initial: string;
  isBusy: boolean;
  onBring: (who: string) => void;
}) {
  const [who, setWho] = useState<string | null>(null);
  const players = people.filter(
    ({ role, hasLeft }) => (role === "pianist" || role === "soloist") && !hasLeft,
  );
  const others = people.filter((person) => !players.includes(person));
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (who !== null) onBring(who);
  };
  return (
    <form className={styles.who} onSubmit={submit}>
      <fieldset className={styles.people}>
        <legend className={styles.spoken}>Who are you in it?</legend>
        {players.map(({ key, name, role }) => (
          <Choice key={key} value={key} who={who} onChoose={setWho}>
            <WhoMark ink={inkOf(role)} initial={firstLetter(name)} big />
            <span>
              <b>I am {name}</b>
              <span>
                The {role}. What {name} proposed, answered and wrote becomes yours here.
              </span>
            </span>
          </Choice>
        ))}
        {(["pianist", "soloist"] as const).map((role) => (
          <Choice key={role} value={`new ${role}`} who={who} onChoose={setWho}>
            <WhoMark ink={inkOf(role)} initial={initial} big />
            <span>
              <b>None of them: I am the new {role}</b>
              <span>All that was said before stays under the names it was said by.</span>
            </span>
          </Choice>
        ))}
      </fieldset>
      <p className={styles.quiet}>
        Everybody else
        {others.length > 0 &&
          `, ${others.map(({ name, role }) => `${name} (${role})`).join(", ")} among them,`}{" "}
        stands in it by name, without an account. Nobody’s words become those of an account that did not say
        so itself.
      </p>
      <p>
        <Button type="submit" kind="settle" disabled={isBusy || who === null}>
          <Icon name="check" /> Bring it in
        </Button>
      </p>
    </form>
  );
}

function Choice({
  value,
  who,
  onChoose,
  children,
}: {
  value: string;
  who: string | null;
  onChoose: (who: string) => void;
  children: React.ReactNode;
}) {
  return (
    <label className={styles.person}>
      <input type="radio" name="who" value={value} checked={who === value} onChange={() => onChoose(value)} />
      {children}
    </label>
  );
}

function firstLetter(name: string): string {
  const [first] = new Intl.Segmenter("en", { granularity: "grapheme" }).segment(name.trim());
  return (first?.segment ?? "?").toLocaleUpperCase();
}
