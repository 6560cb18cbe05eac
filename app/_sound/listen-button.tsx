"use client";

import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import type { CutSpan } from "@/lib/score/cut-span";
import { sayClock } from "@/lib/score/say-clock";
import { barsAroundJoin, type JoinHearing, type ListenRequest } from "@/lib/sound/listen-request";
import styles from "./listen-button.module.css";
import { useSound } from "./sound-context";

const hearings: readonly { how: JoinHearing; label: string }[] = [
  { how: "with-the-cut", label: "With the cut" },
  { how: "without-it", label: "Without it" },
  { how: "in-turn", label: "Both in turn" },
];

/** A cut whose join is heard. */
export interface JoinToHear {
  readonly cut: CutSpan;
  /** The other cuts that are made while it is heard. */
  readonly cuts: readonly CutSpan[];
  /** `barsAroundJoin` unless given. */
  readonly barsBefore?: number;
  readonly barsAfter?: number;
}

/**
 * "Listen" for a join: plays from some bars before the cut to some bars after it, with the cut, without it, or both in turn.
 *
 * @param seconds how long it takes with the cut, when that is known.
 */
export function ListenButton({
  request: { cut, cuts, barsBefore = barsAroundJoin, barsAfter = barsAroundJoin },
  seconds = null,
  small = false,
}: {
  request: JoinToHear;
  seconds?: number | null;
  small?: boolean;
}) {
  const sound = useSound();
  const [how, setHow] = useState<JoinHearing>("with-the-cut");
  const request: ListenRequest = { kind: "join", cut, cuts, barsBefore, barsAfter, how };
  const isMine = isSame(sound.now.request, request);
  const isOn = isMine && (sound.now.status === "playing" || sound.now.status === "preparing");
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div className={styles.listen} role="group" aria-label="Listen to this join">
      <Button small={small} onClick={() => (isOn ? sound.stop() : sound.play(request))}>
        <Icon name={isOn ? "stop" : "play"} small /> {isOn ? "Stop" : "Listen"}
        {!isOn && seconds !== null && how === "with-the-cut" && (
          <span className={styles.seconds}>{sayClock(seconds)}</span>
        )}
      </Button>
      <label className={styles.how}>
        <span>How the join is heard</span>
        <select value={how} onChange={(event) => setHow(event.target.value as JoinHearing)}>
          {hearings.map((hearing) => (
            <option key={hearing.how} value={hearing.how}>
              {hearing.label}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}

function isSame(one: ListenRequest | null, other: ListenRequest): boolean {
  return one !== null && JSON.stringify(one) === JSON.stringify(other);
}
