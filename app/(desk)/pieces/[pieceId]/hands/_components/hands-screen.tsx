"use client";

import { useEffect, useEffectEvent, useMemo, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { HandsDesk } from "@/app/_data/desk/hands-desk";
import { useTempoMarks } from "@/app/_practice/use-tempo-marks";
import { usePlaying } from "@/app/_sound/use-playing";
import { useAnswer } from "@/app/_study/use-answer";
import { nameBars } from "@/app/_ui/name-span";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { Strip } from "@/app/_ui/strip/strip";
import { useNarrow } from "@/app/_ui/use-narrow";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { firstName, otherPlayer } from "../../_components/person";
import { RoomLine } from "../../_components/room-line";
import { looksOnStrip, withRoom } from "../../_components/room-marks";
import { useRoomHere, useTellBarLabels } from "../../_components/room-provider";
import { sayHere } from "../../_components/say-here";
import { stripKey } from "../../breath/_components/strip-key";
import { ByTempo } from "./by-tempo";
import type { HandsPlace } from "./hands-address";
import { HandsCard } from "./hands-card";
import { handsOnStrip } from "./hands-on-strip";
import { type HandsPane, HandsPanes } from "./hands-panes";
import styles from "./hands-screen.module.css";
import { type ListedPlace, listPlaces } from "./list-places";
import { PassageList } from "./passage-list";
import { PassagePanel } from "./passage-panel";
import { type Bars, rewritesOver, sharesBars } from "./passage-state";
import { PracticeHere } from "./practice-here";
import { countedPaces, useHandsAtTempo } from "./use-hands-at-tempo";
import { useHandsPlace } from "./use-hands-place";
import { useOfferCounts } from "./use-offer-counts";
import { useSettled } from "./use-settled";

const noPassages: readonly PracticePassage[] = [];

/** Long enough that a slider on its way asks for no suggestions. */
const settleMs = 350;

/** The pianist's screen of hands: the strip with the row of hands, what is awkward at tempo, and one passage in front. */
export function HandsScreen({
  desk,
  handsDesk,
  mine,
}: {
  desk: Desk;
  handsDesk: HandsDesk;
  mine: NonNullable<HandsDesk["mine"]>;
}) {
  const room = useRoomHere();
  const isNarrow = useNarrow(1000);
  const playing = usePlaying();
  const [place, change] = useHandsPlace();
  const [pane, setPane] = useState<HandsPane>("passage");
  const hands = mine.profile;
  const settledPace = useSettled(place.pace, settleMs);
  const { value: view, done, problem } = useHandsAtTempo(hands, place.pace);
  const soloist = otherPlayer(desk);
  const other = soloist ? firstName(soloist) : "the soloist";
  const { rewrites } = handsDesk;
  // First comes what stands in front: then the piece is weighed.
  const { value: practised } = useAnswer(view && { kind: "practise", question: { hands } });
  const log = { pieceId: desk.pieceId, userId: desk.me.userId, sourceHash: desk.sourceHash };
  const marks = useTempoMarks(log, practised ?? noPassages, mine.practice);
  useTellBarLabels(desk.bars);

  const open = useMemo(
    () =>
      (view?.passages ?? []).filter(
        ({ fromBar, toBar }) =>
          !rewrites.some((rewrite) => rewrite.takenOffAt === null && sharesBars(rewrite, { fromBar, toBar })),
      ),
    [view, rewrites],
  );
  const offersOf = useOfferCounts(
    view && { sourceHash: desk.sourceHash, hands, pace: settledPace },
    open,
    settledPace === place.pace && view !== null,
  );
  const places = useMemo(
    () => view && listPlaces({ passages: view.passages, rewrites, cuts: desk.cuts, other, offersOf }),
    [view, rewrites, desk.cuts, other, offersOf],
  );
  const front = barsInFront(desk, handsDesk, place, places);
  const shown = front && (places?.find((one) => sharesBars(one, front)) ?? null);
  usePin(front, place, change);
  const strip = useMemo(() => {
    const { comments, breaths, pencilledCuts } = room;
    const base = withRoom(desk, { comments, breaths, pencilledCuts });
    return { ...base, ...(view && places && { hands: handsOnStrip(desk.strip, view, places, marks) }) };
  }, [desk, room, view, places, marks]);
  const looks = useMemo(() => looksOnStrip(desk, room.people), [desk, room.people]);
  const second = secondOf(desk, front?.fromBar ?? 0);
  const go = (next: Bars) => {
    change({ bars: { fromBar: next.fromBar, toBar: next.toBar }, rewriteId: null });
    setPane("passage");
  };
  /** A bar that was tapped: the place it lies in, or that bar alone. */
  const goToBar = (barIndex: number) => {
    const alone = { fromBar: barIndex, toBar: barIndex };
    go(places?.find((one) => sharesBars(one, alone)) ?? alone);
  };
  const tempo = view?.tempi[front?.fromBar ?? 0];
  const card = <HandsCard mine={mine} />;
  return (
    <main className={styles.screen} data-pane={pane}>
      <h1 className={styles.title}>Hands</h1>
      <Sheet className={styles.top} aria-label="The strip">
        <div className={styles.strip}>
          <Strip
            piece={strip}
            kind={isNarrow ? "hands-stand" : "hands"}
            view={front && { firstBar: front.fromBar, lastBar: front.toBar }}
            cursor={second}
            marked={null}
            openCutId={null}
            looks={looks}
            playing={playing}
            saysHere={sayOnStrip(desk, view?.bars[front?.fromBar ?? 0]?.difficulty ?? null, second)}
            onGo={({ barIndex }) => goToBar(barIndex)}
            onMean={(meant) => {
              if (meant.kind === "passage") go({ fromBar: meant.firstBar, toBar: meant.lastBar });
            }}
            onKey={(event) => {
              const bar = stripKey(event, desk.strip, second);
              if (!bar) return;
              event.preventDefault();
              goToBar(bar.barIndex);
            }}
          />
        </div>
        {!isNarrow && card}
      </Sheet>
      <RoomLine />
      <div className={styles.work}>
        <div className={styles.side}>
          <PassageList
            desk={desk}
            places={places}
            shownKey={shown?.key ?? null}
            takenOff={rewrites.filter(({ takenOffAt, isStale }) => takenOffAt !== null && !isStale)}
            done={done}
            onPick={go}
          />
          {view && tempo && (
            <ByTempo
              steps={countedPaces.map((pace, index) => ({ pace, count: view.counts[index] ?? 0 }))}
              pace={place.pace}
              perMinute={tempo.perMinute}
              where={`the tempo of ${nameBars(desk.bars, { firstBar: front?.fromBar ?? 0, lastBar: front?.fromBar ?? 0 })}`}
              onPace={(pace) => change({ pace })}
            />
          )}
        </div>
        <div className={styles.front}>
          {problem && (
            <Sheet className={styles.words}>
              <SayProblem>{problem}</SayProblem>
            </Sheet>
          )}
          {front ? (
            <PassagePanel
              key={`${front.fromBar}-${front.toBar}`}
              desk={desk}
              hands={hands}
              place={shown}
              bars={front}
              written={rewritesOver(rewrites, front)}
              rewriteId={place.rewriteId}
              view={view}
              pace={place.pace}
              settledPace={settledPace}
              onPace={(pace) => change({ pace })}
              onRewrite={(rewriteId) => change({ rewriteId })}
              onKept={(bars) => change({ bars, rewriteId: null })}
            />
          ) : (
            <Sheet className={styles.words}>
              <p>
                {places === null
                  ? "The bars are being looked at."
                  : "Nothing is awkward at this tempo. Tap the strip to look at any bar."}
              </p>
            </Sheet>
          )}
        </div>
        {isNarrow && pane === "hands" && <Sheet className={styles.card}>{card}</Sheet>}
      </div>
      <PracticeHere
        desk={desk}
        handsDesk={handsDesk}
        passages={practised}
        entries={mine.practice}
        className={styles.practice}
      />
      {isNarrow && (
        <HandsPanes
          pane={pane}
          count={places?.filter(({ state }) => !state.isSolved).length ?? 0}
          onPane={setPane}
        />
      )}
    </main>
  );
}

/**
 * What is in front stays there: a place that is settled, or easy at a slower tempo, does not give way to the next one under
 * the hand.
 */
function usePin(front: Bars | null, { bars, rewriteId }: HandsPlace, change: (to: { bars: Bars }) => void) {
  const pin = useEffectEvent(change);
  const isPinned = bars !== null || rewriteId !== null;
  const [fromBar, toBar] = [front?.fromBar ?? null, front?.toBar ?? null];
  useEffect(() => {
    if (!isPinned && fromBar !== null && toBar !== null) pin({ bars: { fromBar, toBar } });
  }, [isPinned, fromBar, toBar]);
}

/** What the address names, else the first place that is open, else the first of all. */
function barsInFront(
  desk: Desk,
  { rewrites }: HandsDesk,
  { bars, rewriteId }: HandsPlace,
  places: readonly ListedPlace[] | null,
): Bars | null {
  const rewrite = rewrites.find(({ id, isStale }) => id === rewriteId && !isStale);
  if (rewrite) return { fromBar: rewrite.fromBar, toBar: rewrite.toBar };
  const isThere = bars !== null && bars.toBar < desk.bars.length;
  if (isThere) return bars;
  const first = places?.find(({ state }) => !state.isSolved) ?? places?.[0];
  return first ? { fromBar: first.fromBar, toBar: first.toBar } : null;
}

function secondOf({ strip }: Desk, barIndex: number): number {
  return strip.bars.find((bar) => bar.barIndex === barIndex)?.from ?? 0;
}

function sayOnStrip(desk: Desk, difficulty: number | null, second: number): string {
  const here = sayHere(desk, second);
  return difficulty === null ? here : `${here}, difficulty ${difficulty}`;
}
