"use client";

import { type Dispatch, memo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { Segmented } from "@/app/_ui/segmented";
import { Sheet } from "@/app/_ui/sheet";
import { lettersAtStake } from "./plan-question";
import type { PlanMove } from "./plan-state";
import { countsWords } from "./plan-words";
import { noWishes, type WhatCounts, type Wishes } from "./wishes";
import styles from "./wishes-panel.module.css";

const lastBars = [1, 2, 3, 4, 6, 8, 12, 16];
const counts: readonly WhatCounts[] = ["joins", "fewer", "shorter"];

/** What the plan has to go by. Every change is answered at once, or after a search of the tuttis. */
export const WishesPanel = memo(function WishesPanel({
  desk,
  wishes,
  move,
}: {
  desk: Desk;
  wishes: Wishes;
  move: Dispatch<PlanMove>;
}) {
  const wish = (change: Partial<Omit<Wishes, "leftOut" | "kept">>) => move({ kind: "wish", wishes: change });
  const isPlain = JSON.stringify(wishes) === JSON.stringify(noWishes);
  return (
    <Sheet className={styles.panel} aria-labelledby="wishes-heading">
      <div className={styles.head}>
        <h2 id="wishes-heading">Wishes</h2>
        {!isPlain && (
          <Button kind="bare" small onClick={() => move({ kind: "no-wishes" })}>
            Clear all
          </Button>
        )}
      </div>
      <div className={styles.row}>
        <span>What counts most</span>
        <Segmented
          label="What counts most"
          value={wishes.counts}
          options={counts.map((value) => ({ value, label: countsWords[value] }))}
          onChange={(value) => wish({ counts: value })}
        />
      </div>
      <div className={styles.row}>
        <span>Cuts go</span>
        <Segmented
          label="Where cuts begin and end"
          value={wishes.resolution}
          options={[
            { value: "bars", label: "By whole bars" },
            { value: "beats", label: "Also by beats" },
          ]}
          onChange={(resolution) => wish({ resolution })}
        />
      </div>
      <SelectField
        label="Bars that stay before each entry"
        value={wishes.keepLastBars ?? ""}
        onChange={({ target }) => wish({ keepLastBars: target.value === "" ? null : Number(target.value) })}
      >
        <option value="">As is usual: 4 bars and 6 seconds</option>
        {[...new Set([...lastBars, ...(wishes.keepLastBars === null ? [] : [wishes.keepLastBars])])]
          .sort((a, b) => a - b)
          .map((count) => (
            <option key={count} value={count}>
              {count === 1 ? "The last bar" : `The last ${count} bars`}
            </option>
          ))}
      </SelectField>
      <Marks desk={desk} wishes={wishes} wish={wish} />
      <div>
        <Check
          label="Keep a statement of every theme"
          isOn={wishes.keepTheme}
          onChange={(keepTheme) => wish({ keepTheme })}
        />
        <Check
          label="Allow rough joins as well"
          isOn={wishes.allowsRough}
          onChange={(allowsRough) => wish({ allowsRough })}
        />
        <Check
          label="Careful clock: the slow end of the range meets the limit"
          isOn={wishes.isCareful}
          onChange={(isCareful) => wish({ isCareful })}
        />
      </div>
    </Sheet>
  );
});

/** The rehearsal marks that a cut could take; a pressed one stays. */
function Marks({
  desk,
  wishes: { keepRehearsal },
  wish,
}: {
  desk: Desk;
  wishes: Wishes;
  wish: (change: Pick<Wishes, "keepRehearsal">) => void;
}) {
  const marks = lettersAtStake(desk);
  if (marks.length === 0) return null;
  const toggle = (mark: string) =>
    wish({
      keepRehearsal: keepRehearsal.includes(mark)
        ? keepRehearsal.filter((other) => other !== mark)
        : [...keepRehearsal, mark],
    });
  return (
    <fieldset className={styles.marks}>
      <legend>Rehearsal marks that stay</legend>
      {marks.map((mark) => (
        <button
          key={mark}
          type="button"
          aria-label={`Keep ${mark}`}
          aria-pressed={keepRehearsal.includes(mark)}
          onClick={() => toggle(mark)}
        >
          <RehearsalBox text={mark} />
        </button>
      ))}
    </fieldset>
  );
}

function Check({
  label,
  isOn,
  onChange,
}: {
  label: string;
  isOn: boolean;
  onChange: (isOn: boolean) => void;
}) {
  return (
    <label className={styles.check}>
      <input type="checkbox" checked={isOn} onChange={(event) => onChange(event.target.checked)} />
      {label}
    </label>
  );
}
