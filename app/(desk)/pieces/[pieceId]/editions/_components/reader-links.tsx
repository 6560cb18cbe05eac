"use client";

import { type FormEvent, useState } from "react";
import type { ReaderLinksView, ReaderLinkView } from "@/app/_data/editions/read-reader-links";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button, ButtonLink } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { SelectField, TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { sayDay } from "@/app/_ui/say-date";
import { Sheet } from "@/app/_ui/sheet";
import { useAction } from "../../_components/use-action";
import { makeReaderLinkAction } from "../../actions/make-reader-link";
import { revokeReaderLinkAction } from "../../actions/revoke-reader-link";
import styles from "./reader-links.module.css";

/** Reading an edition on the stand, and links by which others read it without an account. */
export function ReaderLinks({
  pieceId,
  numbers,
  view,
  now,
}: {
  pieceId: string;
  /** Of the editions, the newest first. */
  numbers: readonly number[];
  /** Null for somebody who makes no links. */
  view: ReaderLinksView | null;
  now: string;
}) {
  const [newest] = numbers;
  const [number, setNumber] = useState(newest ?? 1);
  if (newest === undefined) return null;
  return (
    <Sheet className={styles.sheet} aria-labelledby="reading-title">
      <h2 id="reading-title">On the stand</h2>
      <div className={styles.read}>
        <SelectField
          label="Edition"
          value={number}
          onChange={(event) => setNumber(Number(event.target.value))}
        >
          {numbers.map((each) => (
            <option key={each} value={each}>
              № {each}
            </option>
          ))}
        </SelectField>
        <ButtonLink href={`/pieces/${pieceId}/read/${number}`} prefetch={false}>
          <Icon name="page" /> Read it page by page
        </ButtonLink>
      </div>
      {view && <MakeLink {...{ pieceId, number }} lastDay={view.suggestedLastDay} />}
      {view && view.links.length > 0 && <Links {...{ pieceId }} links={view.links} now={new Date(now)} />}
    </Sheet>
  );
}

type Lasting = "1 day" | "1 week" | "until";

function MakeLink({ pieceId, number, lastDay }: { pieceId: string; number: number; lastDay: string }) {
  const [forWhom, setForWhom] = useState("the page turner");
  const [lasting, setLasting] = useState<Lasting>("until");
  const [until, setUntil] = useState(lastDay);
  const [made, setMade] = useState<{ link: string; forWhom: string } | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const make = async (event: FormEvent) => {
    event.preventDefault();
    const asked = {
      ...{ pieceId, editionNumber: number, forWhom },
      lasting: lasting === "until" ? until : lasting,
    };
    const answer = await run(makeReaderLinkAction, asked);
    if (answer.ok) setMade(answer.value);
  };
  const copy = async () => {
    if (made === null) return;
    await navigator.clipboard.writeText(made.link);
    announce("Copied.");
  };
  return (
    <form className={styles.make} onSubmit={make}>
      <h3>A link for a reader</h3>
      <p className={styles.about}>
        Whoever has it reads № {number} and nothing else of the piece, without an account.
      </p>
      <TextField
        label="For whom"
        value={forWhom}
        maxLength={200}
        required
        onChange={(event) => setForWhom(event.target.value)}
      />
      <SelectField
        label="It works"
        value={lasting}
        onChange={(event) => setLasting(event.target.value as Lasting)}
      >
        <option value="1 day">for a day</option>
        <option value="1 week">for a week</option>
        <option value="until">until a day you choose</option>
      </SelectField>
      {lasting === "until" && (
        <TextField
          label="Its last day"
          type="date"
          value={until}
          required
          onChange={(event) => setUntil(event.target.value)}
        />
      )}
      <Button type="submit" disabled={isBusy}>
        <Icon name="link" /> Make a link to № {number}
      </Button>
      {problem && <SayProblem>{problem}</SayProblem>}
      {made && (
        <div className={styles.link}>
          <TextField
            label={`The link for ${made.forWhom}. It is shown this once.`}
            value={made.link}
            readOnly
            onFocus={(event) => event.target.select()}
          />
          <Button kind="settle" onClick={copy}>
            Copy
          </Button>
        </div>
      )}
    </form>
  );
}

function Links({ pieceId, links, now }: { pieceId: string; links: readonly ReaderLinkView[]; now: Date }) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const revoke = async ({ id, forWhom }: ReaderLinkView) => {
    const revoked = await run(revokeReaderLinkAction, { pieceId, readerLinkId: id });
    if (revoked.ok) announce(`The link for ${forWhom} no longer works.`);
  };
  return (
    <div>
      <h3>Links that work</h3>
      {problem && <SayProblem>{problem}</SayProblem>}
      <ul className={styles.list}>
        {links.map((link) => (
          <li key={link.id}>
            <EditionStamp number={link.editionNumber} />
            <p>
              <b>{link.forWhom}</b>
              <small>
                made by {link.madeBy}, until {sayDay(link.lastDay, now)},{" "}
                {link.openedAt ? `last opened ${sayDay(link.openedAt, now)}` : "not opened yet"}
              </small>
            </p>
            <Button
              small
              disabled={isBusy}
              aria-label={`Take back the link for ${link.forWhom}`}
              onClick={() => revoke(link)}
            >
              Take back
            </Button>
          </li>
        ))}
      </ul>
    </div>
  );
}
