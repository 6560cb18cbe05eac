"use client";

import { useSearchParams } from "next/navigation";
import { useState } from "react";
import type { StopwatchView } from "@/app/_data/occasions/stopwatch-view";
import type { RunStart } from "@/app/_stopwatch/run";
import { Button } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { SelectField } from "@/app/_ui/field";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { Sheet } from "@/app/_ui/sheet";
import { SectionName } from "@/app/(desk)/_performances/section-times";
import { sayClock } from "@/lib/score/say-clock";
import styles from "./stopwatch.module.css";

/** What is going to be played: which edition, for which occasion, from where. The address may have chosen. */
export function StartRun({ view, onStart }: { view: StopwatchView; onStart: (start: RunStart) => void }) {
  const asked = useSearchParams();
  const askedFor = view.performances.find(({ id }) => id === asked.get("performance"));
  const [performanceId, setPerformanceId] = useState(askedFor?.id ?? "");
  const performance = view.performances.find(({ id }) => id === performanceId) ?? null;
  const [number, setNumber] = useState(Number(asked.get("edition")));
  const [firstSection, setFirstSection] = useState(0);
  const edition =
    view.editions.find((one) => one.number === (performance?.editionNumber ?? number)) ?? view.editions[0];
  if (!edition) return null;
  const { sections } = edition;
  const from = firstSection < sections.length ? firstSection : 0;
  const planned = sections.slice(from).reduce((sum, section) => sum + section.plannedSeconds, 0);
  const limitSeconds = performance ? performance.limitSeconds : view.limitSeconds;
  const start = () =>
    onStart({
      ...{ pieceId: view.pieceId, pieceTitle: view.title, editionNumber: edition.number, limitSeconds },
      ...{ sections: [...sections], performanceId: performance?.id ?? null, firstSection: from },
    });
  const timable = view.performances.filter(({ editionNumber }) =>
    view.editions.some((one) => one.number === editionNumber),
  );
  return (
    <Sheet className={styles.start}>
      <header className={styles.startHead}>
        <h1>Stopwatch</h1>
        <EditionStamp number={edition.number} />
      </header>
      <div className={styles.choices}>
        <SelectField
          label="What for"
          value={performanceId}
          onChange={(event) => setPerformanceId(event.target.value)}
        >
          <option value="">A run-through</option>
          {timable.map(({ id, name, on }) => (
            <option key={id} value={id}>
              {name}, {sayShortDay(on)}
            </option>
          ))}
        </SelectField>
        {performance === null && view.editions.length > 1 && (
          <SelectField
            label="Edition"
            value={edition.number}
            onChange={(event) => setNumber(Number(event.target.value))}
          >
            {view.editions.map((one) => (
              <option key={one.number} value={one.number}>
                № {one.number}
              </option>
            ))}
          </SelectField>
        )}
        <SelectField
          label="From"
          value={from}
          onChange={(event) => setFirstSection(Number(event.target.value))}
        >
          {sections.map(({ name }, index) => (
            <option key={name} value={index}>
              {index === 0 ? "the beginning" : name}
            </option>
          ))}
        </SelectField>
      </div>
      <p className={styles.quiet}>
        Planned: <b>{sayClock(planned)}</b>
        {limitSeconds !== null && ` of ${sayClock(limitSeconds)}`}. Tap where each section begins; a pedal or
        the space bar does it too. It goes on when the screen is locked, and without a connection.
      </p>
      <Button kind="settle" className={styles.big} onClick={start}>
        Start
      </Button>
      <ol className={styles.sections}>
        {sections.map((section, index) => (
          <li key={section.name} data-left-out={index < from || undefined}>
            <SectionName section={section} />
            <span>{sayClock(section.plannedSeconds)}</span>
          </li>
        ))}
      </ol>
    </Sheet>
  );
}
