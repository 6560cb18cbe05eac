"use client";

import Link from "next/link";
import { useState } from "react";
import type { PrintView } from "@/app/_data/editions/read-print";
import { ButtonLink } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { SelectField } from "@/app/_ui/field";
import { Sheet } from "@/app/_ui/sheet";
import styles from "../page.module.css";
import { ChooseOptions } from "./choose-options";
import { addressOf, type PrintChoice } from "./print-choice";
import { PrintPart } from "./print-part";
import { PrintSheets } from "./print-sheets";

/** Both players' parts of one edition, with what is chosen for them, which stays in the address. */
export function PrintScreen({
  view,
  edition,
  first,
}: {
  view: PrintView;
  edition: number;
  first: PrintChoice;
}) {
  const [choice, setChoice] = useState(first);
  const change = (part: Partial<PrintChoice>) => {
    const next = { ...choice, ...part };
    setChoice(next);
    history.replaceState(history.state, "", addressOf(edition, next));
  };
  const part = { view, edition, choice, change };
  return (
    <main className={styles.page} id="main">
      <Sheet className={styles.options} aria-labelledby="print-title">
        <header className={styles.head}>
          <EditionStamp number={edition} size="large" />
          <div className={styles.title}>
            <h1 id="print-title">Print for both</h1>
            <p>
              Edition № {edition} of {view.title}.{" "}
              <Link href={`/pieces/${view.pieceId}/editions#edition-${edition}`}>What it holds</Link>
            </p>
          </div>
          {view.editions.length > 1 && <OtherEdition view={view} edition={edition} choice={choice} />}
        </header>
        <ChooseOptions choice={choice} onChange={change} />
        <PrintSheets view={view} edition={edition} choice={choice} />
      </Sheet>
      <div className={styles.parts} id="parts">
        <PrintPart {...part} reader="pianist" />
        <PrintPart {...part} reader="soloist" />
      </div>
    </main>
  );
}

function OtherEdition({ view, edition, choice }: { view: PrintView; edition: number; choice: PrintChoice }) {
  const [number, setNumber] = useState(edition);
  return (
    <form className={styles.other} onSubmit={(event) => event.preventDefault()}>
      <SelectField
        label="Edition"
        isLabelHidden
        value={number}
        onChange={(event) => setNumber(Number(event.target.value))}
      >
        {view.editions.map((each) => (
          <option key={each} value={each}>
            № {each}
          </option>
        ))}
      </SelectField>
      <ButtonLink small href={addressOf(number, choice)} aria-disabled={number === edition || undefined}>
        Go to № {number}
      </ButtonLink>
    </form>
  );
}
