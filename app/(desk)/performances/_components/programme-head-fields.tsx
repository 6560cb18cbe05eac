"use client";

import { SelectField, TextArea, TextField } from "@/app/_ui/field";
import { sayClock } from "@/lib/score/say-clock";
import type { ProgrammeRecord } from "@/lib/store/programmes/programme-record";
import styles from "../../_performances/dialog-form.module.css";
import { clockProblem } from "../../_performances/read-log";
import { occasionWords } from "../../_performances/say-performance";

/** When, where, and by which clock. */
export function ProgrammeHeadFields({
  stood,
  today,
  isWrongLimit,
}: {
  /** What was written before; null for a new one. */
  stood: ProgrammeRecord | null;
  /** ISO 8601 date. */
  today: string;
  isWrongLimit: boolean;
}) {
  const limit = stood?.own?.limitSeconds ?? null;
  return (
    <>
      <TextField
        label="What is the occasion?"
        name="name"
        maxLength={200}
        placeholder="Spring recital, final round…"
        defaultValue={stood?.name}
        required
      />
      <div className={styles.pair}>
        <SelectField label="Kind" name="kind" defaultValue={stood?.own?.kind ?? "recital"}>
          {Object.entries(occasionWords).map(([kind, words]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </SelectField>
        <TextField label="Where" name="place" maxLength={200} defaultValue={stood?.place} />
      </div>
      <div className={styles.pair}>
        <TextField label="On" name="on" type="date" defaultValue={stood?.on ?? today} required />
        <TextField label="Begins at" name="startsAt" type="time" defaultValue={stood?.startsAt ?? ""} />
      </div>
      <div className={styles.pair}>
        <TextField
          label="Limit"
          name="limit"
          inputMode="numeric"
          placeholder="none"
          defaultValue={limit === null ? "" : sayClock(limit)}
          hint="Minutes and seconds; empty for none."
          problem={isWrongLimit ? clockProblem : null}
        />
        <SelectField
          label="Between the pieces"
          name="clock"
          defaultValue={stood?.own?.stopsBetween ? "stops" : "runs"}
          hint="The rules say which."
        >
          <option value="runs">the clock runs on</option>
          <option value="stops">the clock stops</option>
        </SelectField>
      </div>
      <TextArea label="To remember" name="remarks" maxLength={2000} defaultValue={stood?.own?.remarks} />
    </>
  );
}
