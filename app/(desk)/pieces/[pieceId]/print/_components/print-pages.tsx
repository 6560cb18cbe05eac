"use client";

import { useState } from "react";
import { SayProblem } from "@/app/_ui/say";
import type { PagesPlan } from "@/lib/engrave/pages/pages-plan";
import type { Paper, PrintOptions, PrintReader } from "@/lib/engrave/pdf/print-options";
import { useAction } from "../../_components/use-action";
import { pinPageAction } from "../../actions/pin-page";
import { unpinPageAction } from "../../actions/unpin-page";
import { PageFigure } from "./page-figure";
import { PinForm } from "./pin-form";
import styles from "./print-pages.module.css";

/** A change to the pins of one part. */
export interface Pinning {
  readonly isBusy: boolean;
  readonly pin: (barIndex: number) => void;
  readonly unpin: (barIndex: number) => void;
}

/** The pages of one part, each with its turn, and the bars that are pinned. */
export function PrintPages({
  plan,
  isStale,
  pieceId,
  edition,
  mayPin,
  reader,
  paper,
  sides,
  pictureOf,
  onPinned,
}: {
  plan: PagesPlan;
  /** Others are being made. */
  isStale: boolean;
  pieceId: string;
  edition: number;
  mayPin: boolean;
  reader: PrintReader;
  paper: Paper;
  sides: PrintOptions["sides"];
  pictureOf: (page: number, key: string) => string;
  onPinned: () => void;
}) {
  const { run, isBusy, problem } = useAction();
  const [said, setSaid] = useState("");
  const about = { pieceId, editionNumber: edition, reader, paper };
  const labelOf = (barIndex: number) => plan.bars.find(({ sourceIndex }) => sourceIndex === barIndex)?.label;
  const change = async (action: typeof pinPageAction, barIndex: number, words: string) => {
    const done = await run(action, { ...about, barIndex });
    if (!done.ok) return;
    setSaid(words);
    onPinned();
  };
  const pinning: Pinning = {
    isBusy,
    pin: (bar) => void change(pinPageAction, bar, `Pinned: a page begins at bar ${labelOf(bar)}.`),
    unpin: (bar) => void change(unpinPageAction, bar, "The pin is off."),
  };
  const hidden = plan.pins.filter(({ label }) => label === null);
  return (
    <div className={styles.around} aria-busy={isStale || undefined}>
      {mayPin && <PinForm plan={plan} pinning={pinning} />}
      <p role="status" className={styles.said}>
        {said}
      </p>
      {problem && <SayProblem>{problem}</SayProblem>}
      {hidden.length > 0 && (
        <p className={styles.quiet}>
          {hidden.length === 1 ? "One pinned bar is" : `${hidden.length} pinned bars are`} cut in this
          edition; the pin waits.
        </p>
      )}
      <ol className={styles.pages} data-stale={isStale || undefined}>
        {plan.pages.map((page) => (
          <PageFigure
            key={page.number}
            plan={plan}
            page={page}
            sides={sides}
            picture={pictureOf(page.number, plan.key)}
            pinning={mayPin ? pinning : null}
          />
        ))}
      </ol>
    </div>
  );
}
