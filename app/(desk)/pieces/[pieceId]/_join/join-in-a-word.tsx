"use client";

import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { sayClock } from "@/lib/score/say-clock";
import { robbed, sayNeedUnder } from "../_cuts/say-need";
import styles from "./join-in-a-word.module.css";
import { JoinSeam } from "./join-seam";
import { sayGrade } from "./join-words";
import { useJudged } from "./use-judged";

/** On a card that is not open: how the join is, and what rest the cut leaves. */
export function JoinInAWord({ desk, cut }: { desk: Desk; cut: DeskCut }) {
  const { judged, isWorking } = useJudged(desk, cut.weight === null ? null : cut, cut.number);
  if (cut.weight === null) return null;
  const { rest } = cut.weight;
  const [need] = robbed(judged?.needs ?? []);
  const said = need && sayNeedUnder(desk, need);
  return (
    <p className={styles.word}>
      {judged ? (
        <>
          <JoinSeam grade={judged.join.grade} small /> Join {sayGrade(judged.join.grade)}.
        </>
      ) : (
        isWorking && "Reading the bars…"
      )}
      {rest && ` Rest before ${rest.nextEntry.text}: ${sayClock(rest.afterSeconds)}.`}
      {said && (
        <b>
          {" "}
          {said.point} {said.rest}.
        </b>
      )}
    </p>
  );
}
