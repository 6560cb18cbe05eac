"use client";

import { useState } from "react";
import type { PrintView } from "@/app/_data/editions/read-print";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { Segmented } from "@/app/_ui/segmented";
import { Sheet } from "@/app/_ui/sheet";
import { useDownload } from "@/app/_ui/use-download";
import { type PrintReader, staffMillimetres, staffSizes } from "@/lib/engrave/pdf/print-options";
import { type PrintChoice, queryOf } from "./print-choice";
import { PrintPages } from "./print-pages";
import styles from "./print-part.module.css";
import { sayPages } from "./say-turns";
import { usePages } from "./use-pages";

/** One player's part: its own options, its file, and its pages with their turns. */
export function PrintPart({
  view,
  edition,
  choice,
  change,
  reader,
}: {
  view: PrintView;
  edition: number;
  choice: PrintChoice;
  change: (part: Partial<PrintChoice>) => void;
  reader: PrintReader;
}) {
  const [pinCount, setPinCount] = useState(0);
  const { start, making, progress: madeShare, problem: notMade } = useDownload();
  const base = `/api/pieces/${encodeURIComponent(view.pieceId)}/editions/${edition}`;
  const query = queryOf(choice, reader);
  const pages = usePages(`${base}/pages?reader=${reader}&${query}`, `${view.changedAt} ${pinCount}`);
  const title = reader === "pianist" ? "Pianist’s score" : "Soloist’s part";
  return (
    <Sheet className={styles.part} aria-labelledby={`${reader}-title`} data-reader={reader}>
      <header className={styles.head}>
        <h2 id={`${reader}-title`}>{title}</h2>
        <Button
          kind="settle"
          disabled={making !== null}
          onClick={() => start(`${base}/${reader}.pdf?${query}`)}
        >
          <Icon name="print" small /> {reader === "pianist" ? "Pianist’s PDF" : "Soloist’s PDF"}
        </Button>
      </header>
      <div className={styles.own}>
        <Segmented
          label={`Staff of the ${title.toLowerCase()}`}
          value={choice[reader]}
          options={staffSizes.map((size) => ({ value: size, label: `${staffMillimetres[size]} mm` }))}
          onChange={(size) => change({ [reader]: size })}
        />
        {reader === "soloist" && (
          <label className={styles.check}>
            <input
              type="checkbox"
              checked={choice.leadIns === "yes"}
              onChange={(event) => change({ leadIns: event.target.checked ? "yes" : "no" })}
            />
            Piano lead-ins before entries after long rests
          </label>
        )}
      </div>
      {making !== null && <Progress words={`Making the ${title.toLowerCase()}`} done={madeShare} />}
      {notMade && <SayProblem>{notMade}</SayProblem>}
      {pages.problem && <SayProblem>{pages.problem}</SayProblem>}
      {pages.progress !== null && <Progress words="Laying out the pages" done={pages.progress} />}
      {pages.plan && (
        <>
          <p className={styles.sum}>{sayPages(pages.plan)}</p>
          <PrintPages
            plan={pages.plan}
            isStale={pages.progress !== null}
            pieceId={view.pieceId}
            edition={edition}
            mayPin={view.mayPin}
            reader={reader}
            paper={choice.paper}
            sides={choice.paper === "tablet" ? "single" : choice.sides}
            pictureOf={(number, key) => `${base}/pages/${number}?reader=${reader}&${query}&key=${key}`}
            onPinned={() => setPinCount((count) => count + 1)}
          />
        </>
      )}
    </Sheet>
  );
}
