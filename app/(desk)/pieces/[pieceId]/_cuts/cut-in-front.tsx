"use client";

import type { Dispatch } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import type { DeskMove, DeskState } from "../_components/desk-state";
import { JoinListen } from "../_join/join-listen";
import { JoinPanel } from "../_join/join-panel";
import { useJudged } from "../_join/use-judged";
import { OtherJoins } from "../_search/search-nearby";
import { WeighButton } from "../_weigh/weigh-button";
import type { WeighPick } from "../_weigh/weigh-picks";
import { CutButtons } from "./cut-buttons";
import { CutCard } from "./cut-card";
import { CutEffects } from "./cut-effects";
import styles from "./cut-in-front.module.css";
import { CutThread } from "./cut-thread";
import { CutWhy } from "./cut-why";

/** The cut in hand: what it costs and gives, how it sounds, what can be done with it, what was said, what else there is. */
export function CutInFront({
  desk,
  cut,
  state,
  move,
}: {
  desk: Desk;
  cut: DeskCut;
  state: DeskState;
  move: Dispatch<DeskMove>;
}) {
  // A cut that is laid aside is judged too: what speaks against it is why it was laid aside.
  const judging = useJudged(desk, cut.isStale ? null : cut, cut.number);
  const { judged } = judging;
  const counter = () => move({ kind: "draft", draft: { from: cut.from, to: cut.to, replaces: cut } });
  const take = ({ from, to }: Pick<DeskCut, "from" | "to">) =>
    move({ kind: "draft", draft: { from, to, replaces: cut } });
  const isReading = judging.isWorking && cut.state === "open" && !cut.waitsForMe;
  return (
    <CutCard
      desk={desk}
      cut={cut}
      isOpen
      isReading={isReading}
      onOpen={() => move({ kind: "open-cut", cutId: cut.id, bar: cut.firstBar })}
    >
      <div className={styles.inside}>
        {cut.weight && <CutEffects desk={desk} weight={cut.weight} needs={judged?.needs ?? []} />}
        {!cut.isStale && (
          <JoinPanel
            desk={desk}
            judging={judging}
            shown={state.shown}
            onShow={(shown) => move({ kind: "show", shown })}
            onTake={desk.may.propose ? take : undefined}
          >
            <JoinListen desk={desk} ends={cut} number={cut.number} />
          </JoinPanel>
        )}
        <CutWhy why={cut.why} judged={judged} />
        {!cut.isStale && <Weighing cut={cut} state={state} move={move} />}
      </div>
      <div className={styles.answer}>
        <CutButtons key={cut.id} desk={desk} cut={cut} onCounter={counter} />
      </div>
      <CutThread desk={desk} cut={cut} />
      <OtherJoins desk={desk} cut={cut} state={state} isReady={judged !== null} move={move} />
    </CutCard>
  );
}

/** To lay it beside another one; a counter-proposal beside what it was put in the place of. */
function Weighing({ cut, state, move }: { cut: DeskCut; state: DeskState; move: Dispatch<DeskMove> }) {
  const pick: WeighPick = { kind: "proposal", id: cut.id };
  const { instead } = cut;
  return (
    <div className={styles.weigh}>
      {instead && (
        <Button
          small
          onClick={() => move({ kind: "weigh", picks: [{ kind: "proposal", id: instead.id }, pick] })}
        >
          Compare both
        </Button>
      )}
      <WeighButton small pick={pick} name={`cut ${cut.number}`} picks={state.picks} move={move} />
    </div>
  );
}
