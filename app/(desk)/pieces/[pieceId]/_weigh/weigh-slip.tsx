"use client";

import { type Dispatch, useEffect, useRef } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { IconButton } from "@/app/_ui/icon-button";
import { Sheet } from "@/app/_ui/sheet";
import type { DeskMove, DeskState } from "../_components/desk-state";
import { findPicked, isSamePick, type WeighPick } from "./weigh-picks";
import styles from "./weigh-slip.module.css";

/** While cuts are chosen to be weighed: what is chosen, and how the other one is. */
export function WeighSlip({ desk, state, move }: { desk: Desk; state: DeskState; move: Dispatch<DeskMove> }) {
  const { picks, isWeighing } = state;
  const slip = useRef<HTMLElement>(null);
  const isThere = picks.length > 0 && !isWeighing;
  useEffect(() => {
    if (isThere) slip.current?.scrollIntoView({ block: "nearest" });
  }, [isThere]);
  if (!isThere) return null;
  const others = desk.cuts.filter(
    ({ id, isStale }) => !isStale && !picks.some((pick) => isSamePick(pick, { kind: "proposal", id })),
  );
  return (
    <Sheet className={styles.slip} aria-label="Weigh two cuts">
      <ul>
        {picks.map((pick) => (
          <Picked key={JSON.stringify(pick)} desk={desk} pick={pick} move={move} />
        ))}
      </ul>
      {picks.length === 2 ? (
        <Button onClick={() => move({ kind: "weigh", picks })}>Weigh them side by side</Button>
      ) : (
        <SelectField
          label="Weigh it against"
          hint="Or press Weigh at any cut, also at one that was found."
          value=""
          onChange={({ target }) => move({ kind: "pick", pick: { kind: "proposal", id: target.value } })}
        >
          <option value="" disabled>
            choose the other cut
          </option>
          {others.map(({ id, number, name, state: how }) => (
            <option key={id} value={id}>
              Cut {number}: {name}, {how === "superseded" ? "replaced" : how}
            </option>
          ))}
        </SelectField>
      )}
    </Sheet>
  );
}

function Picked({ desk, pick, move }: { desk: Desk; pick: WeighPick; move: Dispatch<DeskMove> }) {
  const name = findPicked(desk, pick)?.name ?? "A cut that is not there";
  return (
    <li>
      <b>{name}</b>
      <IconButton
        icon="cross"
        label={`Do not weigh ${name}`}
        onClick={() => move({ kind: "drop-pick", pick })}
      />
    </li>
  );
}
