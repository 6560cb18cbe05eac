"use client";

import type { EditionsView } from "@/app/_data/editions/editions-view";
import { ButtonLink } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { SelectField, TextField } from "@/app/_ui/field";
import { SayNote } from "@/app/_ui/say";
import { sayMonth, sayWholeDay } from "@/app/_ui/say-date";
import { Sheet } from "@/app/_ui/sheet";
import { sayClock } from "@/lib/score/say-clock";
import { listMonths } from "./list-months";
import { useAsked } from "./use-asked";
import styles from "./what-stood.module.css";

/** "What did we play in May?" The address keeps the question. */
export function WhatStood({ view, now }: { view: EditionsView; now: string }) {
  const { ask } = useAsked();
  const { stood, editions, performances } = view;
  if (editions.length === 0) return null;
  const asked = stood?.asked ?? "";
  const days = [
    ...editions.map(({ frozenAt }) => frozenAt.slice(0, 10)),
    ...performances.map(({ on }) => on),
  ];
  const months = listMonths(days, now.slice(0, 10));
  return (
    <Sheet className={styles.sheet} aria-labelledby="stood-title">
      <header className={styles.head}>
        <h2 id="stood-title">What did we play then?</h2>
      </header>
      <div className={styles.fields}>
        <SelectField
          label="In a month, or on an occasion"
          value={asked}
          onChange={(event) => ask({ when: event.target.value || null })}
        >
          <option value="">choose</option>
          <optgroup label="Months">
            {months.map((month) => (
              <option key={month} value={month}>
                {sayMonth(`${month}-01`)}
              </option>
            ))}
          </optgroup>
          {performances.length > 0 && (
            <optgroup label="Occasions">
              {performances.map(({ id, name, on }) => (
                <option key={id} value={id}>
                  {name}, {sayWholeDay(on)}
                </option>
              ))}
            </optgroup>
          )}
          {/^\d{4}-\d{2}-\d{2}$/.test(asked) && <option value={asked}>{sayWholeDay(asked)}</option>}
        </SelectField>
        <TextField
          label="On a day"
          type="date"
          max={now.slice(0, 10)}
          value={/^\d{4}-\d{2}-\d{2}$/.test(asked) ? asked : ""}
          onChange={(event) => ask({ when: event.target.value || null })}
        />
      </div>
      {stood && <Answer view={view} stood={stood} now={now} />}
    </Sheet>
  );
}

function Answer({
  view,
  stood,
  now,
}: {
  view: EditionsView;
  stood: NonNullable<EditionsView["stood"]>;
  now: string;
}) {
  if (stood.problem) return <SayNote>{stood.problem}</SayNote>;
  if (stood.stood.length === 0)
    return <p className={styles.none}>{stood.name}: nothing was frozen yet, so nothing stood.</p>;
  return (
    <div className={styles.answer} aria-live="polite">
      <h3>{stood.name}</h3>
      <ul aria-label="Stood then">
        {stood.stood.map(({ number, words }) => (
          <li key={number}>
            <EditionStamp number={number} />
            <span>{words}</span>
            <ButtonLink
              small
              href={`/pieces/${view.pieceId}/editions?from=${number}&to=working&when=${encodeURIComponent(stood.asked)}`}
              scroll={false}
              aria-label={`Compare № ${number} with now`}
            >
              Compare with now
            </ButtonLink>
          </li>
        ))}
      </ul>
      {stood.performances.length === 0 ? (
        <p className={styles.none}>No performance is noted then.</p>
      ) : (
        <ul aria-label="Played then">
          {stood.performances.map(({ id, name, on, place, editionNumber, realSeconds, plannedSeconds }) => (
            <li key={id}>
              <b>{name}</b>
              <span>
                {sayWholeDay(on)}
                {place && `, ${place}`}: № {editionNumber}
                {realSeconds === null
                  ? on < now.slice(0, 10)
                    ? ", its time was not noted"
                    : `, planned in ${sayClock(plannedSeconds)}`
                  : `, played in ${sayClock(realSeconds)}`}
              </span>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
