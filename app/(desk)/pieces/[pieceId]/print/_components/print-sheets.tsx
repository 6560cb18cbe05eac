"use client";

import type { PrintView } from "@/app/_data/editions/read-print";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { useDownload } from "@/app/_ui/use-download";
import type { PrintChoice } from "./print-choice";
import styles from "./print-part.module.css";

/** The sheets that lie beside the parts: what is cut, and what changed since the edition before. */
export function PrintSheets({
  view,
  edition,
  choice,
}: {
  view: PrintView;
  edition: number;
  choice: PrintChoice;
}) {
  const { start, making, progress, problem } = useDownload();
  const base = `/api/pieces/${encodeURIComponent(view.pieceId)}/editions/${edition}`;
  const since = edition > 1 ? `since № ${edition - 1}` : "from the print";
  const sheets = [
    { address: `${base}/cut-sheet.pdf?paper=${choice.paper}`, words: "Cut sheet" },
    { address: `${base}/changes.pdf?paper=${choice.paper}`, words: `What changed ${since}` },
  ];
  return (
    <div>
      <div className={styles.sheets}>
        {sheets.map(({ address, words }) => (
          <Button key={words} small disabled={making !== null} onClick={() => start(address)}>
            <Icon name="page" small /> {words}
          </Button>
        ))}
      </div>
      {making !== null && <Progress words="Drawing the sheet" done={progress} />}
      {problem && <SayProblem>{problem}</SayProblem>}
    </div>
  );
}
