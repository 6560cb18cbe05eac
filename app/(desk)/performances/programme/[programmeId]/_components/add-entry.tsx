"use client";

import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { sayShortDay } from "@/app/_ui/say-short-day";
import styles from "./programme.module.css";
import type { ProgrammeItem } from "./programme-items";
import { WordsDialog } from "./words-dialog";

/** What can be put on a programme. */
export interface Choices {
  /** Pieces whose performances the viewer logs, each with its newest edition. */
  readonly pieces: readonly { readonly id: string; readonly title: string; readonly lastEdition: number }[];
  /** Performances that were logged before. */
  readonly performances: readonly {
    readonly id: string;
    readonly name: string;
    readonly on: string;
    readonly pieceTitle: string;
    readonly editionNumber: number;
  }[];
}

/** How many seconds a new entry is given to walk on and tune; from memory, and changed at will. */
const usualGap = 30;

/** Puts a piece, a performance that was logged before, or something in words on the programme. */
export function AddEntry({
  on,
  onProgramme,
  pieces,
  performances,
  isBusy,
  onAdd,
}: Choices & {
  /** The programme's day: what is logged for it is offered first. */
  on: string;
  /** Performances that stand on it already. */
  onProgramme: readonly string[];
  isBusy: boolean;
  onAdd: (item: ProgrammeItem) => Promise<boolean>;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const logged = performances.filter((one) => one.on === on && !onProgramme.includes(one.id));
  const options = [
    ...logged.map(({ id, pieceTitle, editionNumber, name }) => ({
      value: `performance ${id}`,
      label: `${pieceTitle}, № ${editionNumber}: ${name}, ${sayShortDay(on)}`,
      item: { kind: "performance", performanceId: id, gapSeconds: usualGap } as const,
    })),
    ...pieces.flatMap(({ id, title, lastEdition }) =>
      Array.from({ length: lastEdition }, (_, index) => lastEdition - index).map((editionNumber) => ({
        value: `piece ${id} ${editionNumber}`,
        label: `${title}, № ${editionNumber}`,
        item: { kind: "piece", pieceId: id, editionNumber, gapSeconds: usualGap } as const,
      })),
    ),
  ];
  const [chosen, setChosen] = useState("");
  const option = options.find(({ value }) => value === chosen) ?? options[0];
  return (
    <div className={styles.add}>
      {option && (
        <>
          <SelectField
            label="Put on it"
            value={option.value}
            onChange={(event) => setChosen(event.target.value)}
          >
            {options.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </SelectField>
          <Button disabled={isBusy} onClick={() => void onAdd(option.item)}>
            <Icon name="plus" small /> Add
          </Button>
        </>
      )}
      <Button kind="bare" disabled={isBusy} onClick={() => setIsOpen(true)}>
        Something in words
      </Button>
      {isOpen && (
        <WordsDialog
          stood={null}
          isBusy={isBusy}
          onClose={() => setIsOpen(false)}
          onWrite={async (words) => {
            if (await onAdd({ ...words, gapSeconds: usualGap })) setIsOpen(false);
          }}
        />
      )}
    </div>
  );
}
