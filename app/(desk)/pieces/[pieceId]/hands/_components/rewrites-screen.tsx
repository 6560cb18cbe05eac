"use client";

import { useMemo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite, HandsDesk } from "@/app/_data/desk/hands-desk";
import { usePlaying } from "@/app/_sound/use-playing";
import { capital } from "@/app/_ui/capital";
import { Sheet } from "@/app/_ui/sheet";
import { Strip } from "@/app/_ui/strip/strip";
import { useNarrow } from "@/app/_ui/use-narrow";
import { WaitTag } from "@/app/_ui/wait-tag";
import { RoomLine } from "../../_components/room-line";
import { looksOnStrip, withRoom } from "../../_components/room-marks";
import { useRoomHere, useTellBarLabels } from "../../_components/room-provider";
import { sayHere } from "../../_components/say-here";
import { stripKey } from "../../breath/_components/strip-key";
import { HintsHere } from "../_practice/hints-here";
import { RewritePanel } from "./rewrite-panel";
import styles from "./rewrites-screen.module.css";
import { sayForOthers } from "./say-for-others";
import { useHandsPlace } from "./use-hands-place";

/**
 * The same place for everybody but the pianist: what is played otherwise than printed, as far as it was told or asked. No
 * word of the pianist's hands is on it.
 */
export function RewritesScreen({ desk, handsDesk }: { desk: Desk; handsDesk: HandsDesk }) {
  const room = useRoomHere();
  const isNarrow = useNarrow(1000);
  const playing = usePlaying();
  const [place, change] = useHandsPlace();
  useTellBarLabels(desk.bars);
  const rewrites = useMemo(
    () => handsDesk.rewrites.filter(({ takenOffAt }) => takenOffAt === null),
    [handsDesk],
  );
  const shown = inFront(rewrites, place);
  const strip = useMemo(() => withRoom(desk, room), [desk, room]);
  const looks = useMemo(() => looksOnStrip(desk, room.people), [desk, room.people]);
  const second = desk.strip.bars.find(({ barIndex }) => barIndex === (shown?.fromBar ?? 0))?.from ?? 0;
  const goToBar = (barIndex: number) => {
    const next = rewrites.find(({ fromBar, toBar }) => fromBar <= barIndex && barIndex <= toBar);
    if (next) change({ rewriteId: next.id });
  };
  return (
    <main className={styles.screen}>
      <h1 className={styles.title}>What the pianist plays otherwise</h1>
      <Sheet className={styles.strip} aria-label="The strip">
        <Strip
          piece={strip}
          kind={isNarrow ? "stand" : "desk"}
          view={shown && !shown.isStale ? { firstBar: shown.fromBar, lastBar: shown.toBar } : null}
          cursor={second}
          marked={null}
          openCutId={null}
          looks={looks}
          playing={playing}
          saysHere={sayHere(desk, second)}
          onGo={({ barIndex }) => goToBar(barIndex)}
          onMean={() => {}}
          onKey={(event) => {
            const bar = stripKey(event, desk.strip, second);
            if (!bar) return;
            event.preventDefault();
            goToBar(bar.barIndex);
          }}
        />
      </Sheet>
      <RoomLine />
      <div className={styles.work}>
        <Sheet className={styles.list} aria-label="Rewrites">
          <h2>Rewrites</h2>
          {rewrites.length === 0 && <p>Nothing is played otherwise than printed.</p>}
          <ol>
            {rewrites.map((rewrite) => (
              <li key={rewrite.id}>
                <button
                  type="button"
                  aria-current={rewrite.id === shown?.id || undefined}
                  onClick={() => change({ rewriteId: rewrite.id })}
                >
                  <b>{capital(rewrite.name)}</b>
                  <span>
                    {rewrite.terms.words ? capital(rewrite.terms.words) : `Rewrite ${rewrite.number}`}
                  </span>
                  {rewrite.waitsForMe ? <WaitTag /> : <small>{sayForOthers(desk, rewrite)}</small>}
                </button>
              </li>
            ))}
          </ol>
        </Sheet>
        {shown && <RewritePanel key={shown.id} desk={desk} rewrite={shown} />}
      </div>
      {desk.may.readDiscussion && (
        <div className={styles.hints}>
          <HintsHere pieceId={desk.pieceId} hints={handsDesk.hints} mayWrite={desk.may.propose} />
        </div>
      )}
    </main>
  );
}

/** What the address names, else what waits, else the first. */
function inFront(
  rewrites: readonly DeskRewrite[],
  { rewriteId, bars }: ReturnType<typeof useHandsPlace>[0],
): DeskRewrite | null {
  return (
    rewrites.find(({ id }) => id === rewriteId) ??
    rewrites.find(({ fromBar, toBar }) => bars && fromBar <= bars.toBar && bars.fromBar <= toBar) ??
    rewrites.find(({ waitsForMe }) => waitsForMe) ??
    rewrites[0] ??
    null
  );
}
