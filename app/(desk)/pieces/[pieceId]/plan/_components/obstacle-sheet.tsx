"use client";

import Link from "next/link";
import type { Dispatch } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { nameSpan } from "@/app/_ui/name-span";
import { Sheet } from "@/app/_ui/sheet";
import { toPositionTerms } from "@/lib/edition/position-terms";
import { sayClock } from "@/lib/score/say-clock";
import type { PiecePlan } from "@/lib/study/plan-piece";
import { nameSoloist } from "../../_components/person";
import styles from "./obstacle-sheet.module.css";
import type { PlanMove } from "./plan-state";
import { sayRestInTheWay } from "./plan-words";
import type { Wishes } from "./wishes";

/** Why nothing fits: what stands in the way, by how much, and what would do without it. */
export function ObstacleSheet({
  desk,
  plan: { plan },
  wishes,
  move,
}: {
  desk: Desk;
  plan: PiecePlan;
  wishes: Wishes;
  move: Dispatch<PlanMove>;
}) {
  const { obstacle, limitSeconds, shortest } = plan;
  if (!obstacle || limitSeconds === null) return null;
  // As far apart as the two clocks that are shown, and never nothing.
  const over = Math.max(1, Math.round(shortest.runsSeconds) - Math.round(limitSeconds));
  const isHopeless = obstacle.missesWithoutNeedsBySeconds > 0 && obstacle.keep.length === 0;
  return (
    <Sheet className={styles.sheet} aria-labelledby="obstacle-heading">
      <h2 id="obstacle-heading">No set fits {sayClock(limitSeconds)}</h2>
      <p>
        As short as it gets is <b>{sayClock(shortest.runsSeconds)}</b>, {sayClock(over)} over
        {wishes.isCareful ? " at the slow end of the range" : ""}.
      </p>
      <ul>
        {obstacle.rests.map((rest) => {
          const need = desk.needs.find(({ id }) => id === rest.needId);
          return (
            need && (
              <li key={rest.needId}>
                <p>
                  <b>A needed rest is in the way</b>,{" "}
                  {nameSpan(desk.bars, toPositionTerms(need.from), toPositionTerms(need.to))}.{" "}
                  {sayRestInTheWay(rest, need, nameSoloist(desk))} Without it:{" "}
                  <b>{sayClock(rest.set.runsSeconds)}</b>.
                </p>
                <Link href={`/pieces/${desk.pieceId}/breath#need-${need.id}`}>Look at this rest</Link>
              </li>
            )
          );
        })}
        {obstacle.keep.map(({ why, set }) => {
          const kept = wishes.kept.find((ends) => nameSpan(desk.bars, ends.from, ends.to) === why);
          return (
            <li key={why}>
              <p>
                <b>What you kept is in the way</b>: {why}. Without it: <b>{sayClock(set.runsSeconds)}</b>.
              </p>
              {kept && (
                <Button small onClick={() => move({ kind: "let-go", ends: kept })}>
                  Let {why} go
                </Button>
              )}
            </li>
          );
        })}
        {obstacle.rests.length === 0 && obstacle.keep.length === 0 && (
          <li>
            <p>
              {isHopeless
                ? `Even with no rest kept these cuts miss it by ${sayClock(Math.ceil(obstacle.missesWithoutNeedsBySeconds - 1e-6))}. Allow rough joins or beats, or propose a cut of solo music.`
                : "More than one of the needed rests stands in the way."}
            </p>
          </li>
        )}
      </ul>
    </Sheet>
  );
}
