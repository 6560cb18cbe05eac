"use client";

import { useMemo, useState } from "react";
import type { HandsPerformance } from "@/app/_data/desk/hands-desk";
import { useDeviceText } from "@/app/_practice/use-device-text";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayNote } from "@/app/_ui/say";
import { sayDay } from "@/app/_ui/say-date";
import { Sheet } from "@/app/_ui/sheet";
import { daySchema } from "@/lib/practice/days";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { type PracticePassage, passageKey } from "@/lib/practice/practice-passage";
import { planRehearsals, planScheme } from "@/lib/practice/rehearsal-plan";
import { PlanDays } from "./plan-days";
import { toPlanPassages } from "./plan-passages";
import styles from "./plan-sheet.module.css";
import { PrintedPlan } from "./printed-plan";
import { sayDaysLeft, sayPlanEvidence } from "./say-plan";
import { useToday } from "./use-today";

/** Until the pianist says otherwise. Ours. */
const usualMinutes = 30;
const mostMinutes = 600;
/** Fewer are shown until they are asked for. */
const daysAtOnce = 7;

/** What to practise when, until the performance. */
export function PlanSheet({
  passages,
  entries,
  performance,
  settingsName,
}: {
  passages: readonly PracticePassage[];
  entries: readonly PracticeRecord[];
  performance: HandsPerformance | null;
  /** Under which the minutes and the day are kept on this device. */
  settingsName: string;
}) {
  const today = useToday();
  const [typedMinutes, setMinutes] = useDeviceText(`${settingsName}-minutes`);
  const [typedDay, setDay] = useDeviceText(`${settingsName}-ready-by`);
  const [isAllShown, setAllShown] = useState(false);
  const [isPrinting, setPrinting] = useState(false);
  const minutesADay = readMinutes(typedMinutes === "" ? `${usualMinutes}` : typedMinutes);
  const readyBy = performance?.on ?? (daySchema.safeParse(typedDay).success ? typedDay : null);
  const plan = useMemo(
    () =>
      today === null || readyBy === null || minutesADay === null
        ? null
        : planRehearsals(toPlanPassages(passages, entries), { today, performanceOn: readyBy, minutesADay }),
    [today, readyBy, minutesADay, passages, entries],
  );
  const title = performance ? `Until ${performance.name}` : "Until the performance";
  const nameOf = (key: string) => passages.find((passage) => passageKey(passage) === key)?.label ?? key;
  const shown = plan && (isAllShown ? plan.days : plan.days.slice(0, daysAtOnce));
  return (
    <Sheet className={styles.plan} aria-label="Rehearsal plan">
      <div className={styles.head}>
        <h2>{title}</h2>
        {readyBy && today && (
          <p>
            {sayDay(readyBy, new Date(today))}, {sayDaysLeft(readyBy, today)}
          </p>
        )}
      </div>
      <div className={styles.fields}>
        <TextField
          label="Minutes a day"
          type="number"
          inputMode="numeric"
          min={0}
          max={mostMinutes}
          step={5}
          value={typedMinutes === "" ? usualMinutes : typedMinutes}
          problem={minutesADay === null ? `Whole minutes, from 0 to ${mostMinutes}.` : null}
          onChange={(event) => setMinutes(event.target.value === "" ? " " : event.target.value)}
        />
        {!performance && (
          <TextField
            label="Ready by"
            hint="No performance is written down yet."
            type="date"
            value={typedDay}
            onChange={(event) => setDay(event.target.value)}
          />
        )}
        {plan && plan.days.length > 0 && (
          <Button className={styles.print} onClick={() => setPrinting(true)}>
            <Icon name="print" /> Print the list
          </Button>
        )}
      </div>
      {plan?.days.length === 0 && <p className={styles.none}>There is no day left to plan.</p>}
      {plan && plan.leftOut.length > 0 && plan.days.length > 0 && (
        <SayNote>
          <p>
            No time for {plan.leftOut.map(nameOf).join(", ")}. More minutes a day, or a rewrite, would help.
          </p>
        </SayNote>
      )}
      {shown && today && shown.length > 0 && <PlanDays days={shown} today={today} nameOf={nameOf} />}
      {plan && plan.days.length > daysAtOnce && !isAllShown && (
        <Button small kind="bare" onClick={() => setAllShown(true)}>
          All {plan.days.length} days
        </Button>
      )}
      {plan && (
        <Evidence summary="How this is planned">
          <p>{sayPlanEvidence(plan)}</p>
          <p>{planScheme}</p>
        </Evidence>
      )}
      {isPrinting && plan && today && (
        <PrintedPlan title={title} onPrinted={() => setPrinting(false)}>
          <PlanDays days={plan.days} today={today} nameOf={nameOf} isOnPaper />
        </PrintedPlan>
      )}
    </Sheet>
  );
}

function readMinutes(text: string): number | null {
  const minutes = text.trim() === "" ? Number.NaN : Number(text);
  return Number.isSafeInteger(minutes) && minutes >= 0 && minutes <= mostMinutes ? minutes : null;
}
