"use client";

import { type FormEvent, useEffect, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { BreathNeed } from "@/app/_data/desk/read-breath";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { Segmented } from "@/app/_ui/segmented";
import { Card } from "@/app/_ui/sheet";
import { toPositionTerms } from "@/lib/edition/position-terms";
import { usualRestReasons } from "@/lib/edition/rest-need-terms";
import { comparePositions } from "@/lib/score/position";
import { noQuarters } from "@/lib/score/quarters";
import { useRoomHere } from "../../_components/room-provider";
import { useAction } from "../../_components/use-action";
import { changeRestNeedAction } from "../../actions/change-rest-need";
import { noteRestNeedAction } from "../../actions/note-rest-need";
import { sayEntry } from "./name-entry";
import styles from "./need-form.module.css";
import { type AmountUnit, amountProblem, readAmount } from "./read-amount";
import type { RestRow } from "./rest-rows";
import { sayAmount } from "./say-breath";
import { sayRest } from "./say-rest";

const units: readonly { value: AmountUnit; label: string }[] = [
  { value: "seconds", label: "Time" },
  { value: "bars", label: "Bars" },
];
const ownWords = "own words";

/** Noting how long a rest must be, before which entry, and why; or changing what was noted. */
export function NeedForm({
  desk,
  rows,
  rowKey,
  need,
  onRow,
  onDone,
}: {
  desk: Desk;
  rows: readonly RestRow[];
  /** Chosen here or by a touch on the strip; null for none yet. */
  rowKey: string | null;
  /** What is changed; null when a new one is noted. */
  need: BreathNeed | null;
  onRow: (key: string) => void;
  onDone: () => void;
}) {
  const { run, isBusy, problem } = useAction();
  const { status } = useRoomHere();
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    form.current?.closest("article")?.scrollIntoView({ block: "nearest" });
    form.current?.querySelector("select")?.focus({ preventScroll: true });
  }, []);
  const announce = useAnnounce();
  const isUsual = need === null || usualRestReasons.some((reason) => reason === need.why);
  const [unit, setUnit] = useState<AmountUnit>(need && "bars" in need.needs ? "bars" : "seconds");
  const [amount, setAmount] = useState(need ? startAmount(need) : "");
  const [why, setWhy] = useState(need === null ? "breath" : isUsual ? need.why : ownWords);
  const [own, setOwn] = useState(need && !isUsual ? need.why : "");
  const [isWrong, setIsWrong] = useState(false);
  const row = rows.find(({ key }) => key === rowKey) ?? rows[0];
  if (!row) return null;
  const { before, after } = row.rest.seconds;
  const present = sayRest(after, row.rest.bars.after);
  const written = before === after ? "" : ` ${sayRest(before, row.rest.bars.before)} as written.`;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const needs = readAmount(amount, unit);
    setIsWrong(needs === null);
    if (!needs) return;
    const terms = {
      ...{ pieceId: desk.pieceId, sourceHash: desk.sourceHash, needs },
      ...{ ...placeOf(row), why: why === ownWords ? own : why },
    };
    const answer = need
      ? await run(changeRestNeedAction, { ...terms, needId: need.id })
      : await run(noteRestNeedAction, terms);
    if (!answer.ok) return;
    announce(`Noted: ${sayAmount(needs)} before ${sayEntry(row.entry)}.`);
    onDone();
  };
  return (
    <Card edge="so" aria-label={need ? "Change a rest you need" : "Note a rest you need"}>
      <form ref={form} className={styles.form} onSubmit={submit}>
        <h2>{need ? "Change a rest I need" : "Note a rest I need"}</h2>
        <SelectField
          label="Before which entry"
          hint="Or touch the strip just before the entry."
          value={row.key}
          onChange={(event) => onRow(event.target.value)}
        >
          {rows.map(({ key, entry, rest }) => (
            <option key={key} value={key}>
              {`${sayEntry(entry)}: rests ${sayRest(rest.seconds.after, rest.bars.after)}`}
            </option>
          ))}
        </SelectField>
        <div className={styles.amount}>
          <TextField
            label="How long at least"
            inputMode={unit === "bars" ? "decimal" : "text"}
            placeholder={unit === "bars" ? "4" : "0:20"}
            required
            value={amount}
            onChange={(event) => setAmount(event.target.value)}
            problem={isWrong ? amountProblem[unit] : null}
            hint={`There is ${present} with the agreed cuts.${written}`}
          />
          <Segmented label="Counted in" value={unit} options={units} onChange={setUnit} />
        </div>
        <SelectField label="What for" value={why} onChange={(event) => setWhy(event.target.value)}>
          {usualRestReasons.map((reason) => (
            <option key={reason} value={reason}>
              {reason}
            </option>
          ))}
          <option value={ownWords}>in my own words…</option>
        </SelectField>
        {why === ownWords && (
          <TextField
            label="In your own words"
            required
            maxLength={200}
            value={own}
            onChange={(event) => setOwn(event.target.value)}
          />
        )}
        {status === "offline" && <p className={styles.line}>This needs a connection. Breaths do not.</p>}
        {problem && <SayProblem>{problem}</SayProblem>}
        <div className={styles.buttons}>
          <Button type="submit" kind="settle" disabled={isBusy}>
            {need ? "Change it" : "Note it"}
          </Button>
          <Button onClick={onDone}>Leave it</Button>
        </div>
      </form>
    </Card>
  );
}

function startAmount({ needs }: BreathNeed): string {
  return "bars" in needs ? `${needs.bars}` : sayAmount(needs);
}

/** The rest as a place of the page; where a repeat lies inside it, the bar before the entry. */
function placeOf({ rest: { from, to } }: RestRow) {
  const start =
    comparePositions(from, to) < 0
      ? from
      : { barIndex: Math.max(0, to.offset.num > 0 ? to.barIndex : to.barIndex - 1), offset: noQuarters };
  return { from: toPositionTerms(start), to: toPositionTerms(to) };
}
