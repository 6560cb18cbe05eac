"use client";

import Link from "next/link";
import { memo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { RestBar } from "@/app/_ui/rest-bar";
import { Sheet } from "@/app/_ui/sheet";
import { Spoken } from "@/app/_ui/spoken";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import { firstName, nameSoloist, personOf } from "../../_components/person";
import { letterAtBar } from "./letter-at-bar";
import styles from "./needs-panel.module.css";
import { sayNeeded, sayNeedVerdict, sayRestLeft } from "./plan-words";
import type { PlanView } from "./use-plan";

/** What the set leaves of each rest that the soloist asked for. */
export const NeedsPanel = memo(function NeedsPanel({ desk, view }: { desk: Desk; view: PlanView | null }) {
  const needs = view?.weighed?.needs ?? [];
  const breath = `/pieces/${desk.pieceId}/breath`;
  return (
    <Sheet className={styles.panel} aria-labelledby="needs-heading" aria-busy={view?.isWeighing || undefined}>
      <h2 id="needs-heading">Needed rests</h2>
      {desk.needs.length === 0 && (
        <p className={styles.none}>
          {desk.me.role === "soloist"
            ? "You have asked for no rest yet. The plan takes whatever the clock wants."
            : "No rest is asked for yet. The plan takes whatever the clock wants."}{" "}
          <Link href={breath}>Breath and rest</Link>
        </p>
      )}
      <ul>
        {needs.map((need) => (
          <Need key={need.need.id} desk={desk} need={need} breath={breath} />
        ))}
      </ul>
    </Sheet>
  );
});

function Need({ desk, need, breath }: { desk: Desk; need: CheckedNeed; breath: string }) {
  const { seconds, verdict } = need;
  const { releasedBy, why } = need.need;
  const released = releasedBy === null ? null : firstName(personOf(desk, releasedBy));
  const isShort = verdict === "short" || verdict === "short anyway" || verdict === "no rest";
  return (
    <li data-released={verdict === "released" || undefined}>
      <Link className={styles.where} href={`${breath}#need-${need.need.id}`}>
        <Spoken>Needed rest before </Spoken>
        <Entry desk={desk} need={need} />
      </Link>
      <RestBar beforeSeconds={seconds.before} afterSeconds={seconds.after} neededSeconds={seconds.needed} />
      <p>
        <b>{sayRestLeft(need)}</b> of the {sayNeeded(need.need)} {nameSoloist(desk)} asked for
        <span className={styles.why}>
          {why} · <span data-short={isShort || undefined}>{sayNeedVerdict(need, released)}</span>
        </span>
      </p>
    </li>
  );
}

function Entry({ desk, need: { evidence, need } }: { desk: Desk; need: CheckedNeed }) {
  const entry = evidence.before?.between?.to.barIndex ?? need.to.barIndex;
  const letter = letterAtBar(desk.strip, entry);
  return letter ? <RehearsalBox text={letter} /> : (desk.bars[entry]?.label ?? "end");
}
