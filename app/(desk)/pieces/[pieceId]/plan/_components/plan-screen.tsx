"use client";

import Link from "next/link";
import { type KeyboardEvent, memo, useDeferredValue, useMemo, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { nextStop } from "@/app/_ui/strip/next-stop";
import { Strip } from "@/app/_ui/strip/strip";
import { useNarrow } from "@/app/_ui/use-narrow";
import { RoomLine } from "../../_components/room-line";
import { sayHere } from "../../_components/say-here";
import { stripWithDrafts } from "./draft-strip";
import { LengthSheet } from "./length-sheet";
import { NeedsPanel } from "./needs-panel";
import { OtherSets } from "./other-sets";
import { findNothingToPlan } from "./plan-question";
import styles from "./plan-screen.module.css";
import type { ShownSet } from "./plan-sets";
import { ProposeSet } from "./propose-set";
import { SetList } from "./set-list";
import { useLasting } from "./use-lasting";
import { type PlanHere, usePlan } from "./use-plan";
import { usePlanState } from "./use-plan-state";
import { WishesPanel } from "./wishes-panel";

const noSet: ShownSet = { cuts: [], saves: 0, runs: 0, grade: null };

/** The plan: strip, running times and slider over everything; the set of cuts, and beside it what it has to do. */
export function PlanScreen({ desk }: { desk: Desk }) {
  const [state, move] = usePlanState();
  const here = usePlan(desk, state, move);
  const { view } = here;
  const set = view?.looked.set ?? { ...noSet, runs: desk.agreed.seconds };
  // The slider and its figures go with the finger; what takes longer to draw comes behind without holding them up.
  const behind = useDeferredValue(view);
  const { wishes } = state;
  return (
    <main className={styles.plan} id="main">
      <h1>Plan of {desk.title}</h1>
      <RoomLine />
      <Sheet className={styles.strip} aria-label="The strip with this plan">
        <PlanStrip desk={desk} cuts={behind?.looked.set.cuts ?? noSet.cuts} />
      </Sheet>
      <LengthSheet desk={desk} state={state} view={view} set={set} move={move} />
      <div className={styles.set} id="set">
        <Search desk={desk} here={here} />
        {behind && <SetList desk={desk} wishes={wishes} view={behind} move={move} />}
        {behind && behind.looked.set.cuts.length > 0 && desk.may.propose && (
          <ProposeSet desk={desk} looked={behind.looked} sentence={behind.plan.plan.sentence} />
        )}
      </div>
      <div className={styles.side}>
        <WishesPanel desk={desk} wishes={wishes} move={move} />
        <NeedsPanel desk={desk} view={behind} />
        {behind && behind.sets.others.length > 0 && (
          <OtherSets limitSeconds={desk.limitSeconds} sets={behind.sets} looked={behind.looked} move={move} />
        )}
      </div>
    </main>
  );
}

/** How far the search is, or why there is nothing to search. */
function Search({ desk, here }: { desk: Desk; here: PlanHere }) {
  const nothing = findNothingToPlan(desk);
  const isLong = useLasting(here.isWorking, 250);
  const settings = `/pieces/${desk.pieceId}/settings`;
  if (nothing === "no-solo") {
    return (
      <Sheet className={styles.words}>
        <h2>Nothing tells when the soloist plays</h2>
        <p>
          Cuts are looked for in the tuttis, and these are where the soloist rests. Say which part is the
          solo. {desk.may.propose && <Link href={`${settings}#parts`}>What the parts are for</Link>}
        </p>
      </Sheet>
    );
  }
  if (nothing === "no-tuttis") {
    return (
      <Sheet className={styles.words}>
        <h2>No tutti to shorten</h2>
        <p>
          The soloist plays all through, so nothing can be cut without taking solo music. You can still
          propose a cut of your own. <Link href={`/pieces/${desk.pieceId}`}>Score and cuts</Link>
        </p>
      </Sheet>
    );
  }
  return (
    <>
      {here.problem && <SayProblem>{here.problem}</SayProblem>}
      {isLong && (
        <Sheet className={styles.search}>
          <Progress
            words="Looking for cuts in every tutti…"
            done={here.done === 0 ? null : Math.min(1, here.done)}
          />
          <Button small onClick={here.stop}>
            Cancel
          </Button>
        </Sheet>
      )}
      {here.isStopped && (
        <Sheet className={styles.search}>
          <p>Stopped before the tuttis were searched.</p>
          <Button small onClick={here.goOn}>
            Look for cuts
          </Button>
        </Sheet>
      )}
    </>
  );
}

/** The strip with the set as drafts. A press on a draft goes to its card. */
const PlanStrip = memo(function PlanStrip({ desk, cuts }: { desk: Desk; cuts: ShownSet["cuts"] }) {
  const isNarrow = useNarrow(1000);
  const [cursor, setCursor] = useState(0);
  const strip = useMemo(() => stripWithDrafts(desk, cuts), [desk, cuts]);
  const onKey = (event: KeyboardEvent) => {
    const arrow = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : null;
    if (arrow === null || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const gaps = strip.cuts.flatMap((cut) => cut.gaps.map(({ from }) => from)).sort((a, b) => a - b);
    const letters = [0, ...strip.letters.map(({ at }) => at), strip.totalSeconds];
    const stops = event.altKey ? gaps : event.shiftKey ? letters : strip.bars.map(({ from }) => from);
    setCursor(nextStop(stops, cursor, arrow) ?? cursor);
  };
  return (
    <Strip
      piece={strip}
      kind={isNarrow ? "stand" : "desk"}
      view={null}
      cursor={cursor}
      marked={null}
      openCutId={null}
      saysHere={sayHere({ strip }, cursor)}
      onGo={(bar) => setCursor(bar.from)}
      onMean={(meant) => {
        if (meant.kind === "cut") document.getElementById(`draft-${meant.cutId}`)?.focus();
        setCursor(meant.at);
      }}
      onKey={onKey}
    />
  );
});
