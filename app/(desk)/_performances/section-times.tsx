"use client";

import { useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { sayAgainstLimit } from "@/app/_ui/clock";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { SayNote, SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { takeRunTimingsAction } from "@/app/(desk)/pieces/[pieceId]/actions/take-run-timings";
import { type SectionTiming, sumSections } from "@/lib/edition/section-timings";
import { sayClock } from "@/lib/score/say-clock";
import { sayMore } from "./say-performance";
import styles from "./section-times.module.css";

/** Planned beside real, section by section, and in all against the limit. */
export function SectionTimes({
  sections,
  limitSeconds,
  byDeviceClock,
  take,
}: {
  sections: readonly SectionTiming[];
  limitSeconds: number | null;
  byDeviceClock: boolean;
  /** Whose times may be taken as the duo's own; null for those who only read. */
  take: { readonly pieceId: string; readonly performanceId: string } | null;
}) {
  const [chosen, setChosen] = useState<ReadonlySet<number>>(new Set());
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const { realSeconds, plannedSeconds, isWhole } = sumSections(sections);
  const timed = sections.flatMap((section, index) => (section.realSeconds === null ? [] : [index]));
  const choose = (index: number) =>
    setChosen((before) => {
      const after = new Set(before);
      if (!after.delete(index)) after.add(index);
      return after;
    });
  const takeThem = async () => {
    if (take === null) return;
    const taken = await run(takeRunTimingsAction, { ...take, sections: [...chosen] });
    if (!taken.ok) return;
    announce("Taken. They count from the next edition on.");
    setChosen(new Set());
  };
  return (
    <div className={styles.around}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Section</th>
            <th scope="col">Planned</th>
            <th scope="col">Real</th>
            <th scope="col">
              <span className={styles.hidden}>Difference</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {sections.map((section, index) => (
            <tr key={section.name} data-open={section.realSeconds === null || undefined}>
              <th scope="row">
                {take !== null && section.realSeconds !== null ? (
                  <label className={styles.choice}>
                    <input type="checkbox" checked={chosen.has(index)} onChange={() => choose(index)} />
                    <SectionName section={section} />
                  </label>
                ) : (
                  <SectionName section={section} />
                )}
              </th>
              <td>{sayClock(section.plannedSeconds)}</td>
              <td>{section.realSeconds === null ? "–" : sayClock(section.realSeconds)}</td>
              <td>{section.realSeconds !== null && sayMore(section.realSeconds, section.plannedSeconds)}</td>
            </tr>
          ))}
        </tbody>
        {timed.length > 0 && (
          <tfoot>
            <tr>
              <th scope="row">{isWhole ? "In all" : "What was timed"}</th>
              <td>{sayClock(plannedSeconds)}</td>
              <td>{sayClock(realSeconds)}</td>
              <td>{sayMore(realSeconds, plannedSeconds)}</td>
            </tr>
          </tfoot>
        )}
      </table>
      {isWhole && limitSeconds !== null && (
        <p className={styles.limit}>
          {sayAgainstLimit(realSeconds, limitSeconds)}, of {sayClock(limitSeconds)}
        </p>
      )}
      {byDeviceClock && (
        <SayNote>
          The page was loaded anew or the device slept meanwhile; its clock told the time until it was back.
        </SayNote>
      )}
      {take !== null && timed.length > 0 && (
        <p className={styles.take}>
          <Button small disabled={isBusy || chosen.size === 0} onClick={takeThem}>
            Take these as our timings
          </Button>
          <Button
            small
            kind="bare"
            disabled={isBusy}
            onClick={() => setChosen(new Set(chosen.size === timed.length ? [] : timed))}
          >
            {chosen.size === timed.length ? "Choose none" : "Choose all"}
          </Button>
        </p>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
    </div>
  );
}

/** A rehearsal letter in its box, with what follows it ("second time"); else words. */
export function SectionName({
  section: { name, isLetter },
  isLarge,
}: {
  section: Pick<SectionTiming, "name" | "isLetter">;
  /** To be read from the piano's desk. */
  isLarge?: true;
}) {
  if (!isLetter) return <span>{name}</span>;
  const [letter = "", ...rest] = name.split(", ");
  return (
    <span className={isLarge ? styles.largeName : styles.name}>
      <RehearsalBox text={letter} />
      {rest.length > 0 && <span>{rest.join(", ")}</span>}
    </span>
  );
}
