"use client";

import { type ReactNode, useState } from "react";
import { SelectField, TextArea, TextField } from "@/app/_ui/field";
import { wasPlayed } from "@/lib/calendar/was-played";
import { sayClock } from "@/lib/score/say-clock";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./dialog-form.module.css";
import { OtherEdition } from "./other-edition";
import { clockProblem, type WrongClock } from "./read-log";
import { occasionWords } from "./say-performance";

/** Everything that is written down about a performance: when, where, what, and afterwards how it was. */
export function PerformanceFields({
  lastEdition,
  limitSeconds,
  stood,
  today,
  wrongClock,
}: {
  /** Editions are numbered from 1. */
  lastEdition: number;
  /** The piece's own limit, offered at first. */
  limitSeconds: number | null;
  /** What was written before; null for a new one. */
  stood: PerformanceRecord | null;
  /** ISO 8601 date. */
  today: string;
  wrongClock: WrongClock | null;
}) {
  const [on, setOn] = useState(stood?.on ?? today);
  const [edition, setEdition] = useState(stood?.editionNumber ?? lastEdition);
  const limit = stood ? stood.limitSeconds : limitSeconds;
  return (
    <>
      <TextField
        label="What was it, or is it going to be?"
        name="name"
        maxLength={200}
        placeholder="First round, spring recital…"
        defaultValue={stood?.name}
        required
      />
      <Pair>
        <SelectField label="Kind" name="kind" defaultValue={stood?.kind ?? "recital"}>
          {Object.entries(occasionWords).map(([kind, words]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </SelectField>
        <SelectField
          label="Edition"
          name="editionNumber"
          value={String(edition)}
          onChange={(event) => setEdition(Number(event.target.value))}
        >
          {Array.from({ length: lastEdition }, (_, index) => lastEdition - index).map((number) => (
            <option key={number} value={number}>
              № {number}
            </option>
          ))}
        </SelectField>
      </Pair>
      {stood && edition !== stood.editionNumber && wasPlayed(stood, today) && (
        <OtherEdition stood={stood} chosen={edition} />
      )}
      <Pair>
        <TextField
          label="On"
          name="on"
          type="date"
          value={on}
          onChange={(event) => setOn(event.target.value)}
          required
        />
        <TextField label="Begins at" name="startsAt" type="time" defaultValue={stood?.startsAt ?? ""} />
      </Pair>
      <Pair>
        <TextField label="Where" name="place" maxLength={200} defaultValue={stood?.place} />
        <TextField
          label="Limit"
          name="limit"
          inputMode="numeric"
          placeholder="none"
          defaultValue={limit === null ? "" : sayClock(limit)}
          hint="Minutes and seconds; empty for none."
          problem={wrongClock === "limit" ? clockProblem : null}
        />
      </Pair>
      {(on <= today || stood?.realSeconds != null) && (
        <Pair>
          <TextField
            label="Time by the clock"
            name="real"
            inputMode="numeric"
            placeholder="8:52"
            defaultValue={stood?.realSeconds == null ? "" : sayClock(stood.realSeconds)}
            hint="From the first sound to the last. It can be entered later."
            problem={wrongClock === "real" ? clockProblem : null}
          />
          <ResultField stood={stood?.result ?? ""} />
        </Pair>
      )}
      <TextArea label="To remember" name="remarks" maxLength={2000} defaultValue={stood?.remarks} />
    </>
  );
}

/** What came of it, in the words of those who said so. */
export function ResultField({ stood }: { stood: string }) {
  return (
    <TextField
      label="Result"
      name="result"
      maxLength={200}
      placeholder="passed, second round, a mark"
      defaultValue={stood}
    />
  );
}

function Pair({ children }: { children: ReactNode }) {
  return <div className={styles.pair}>{children}</div>;
}
