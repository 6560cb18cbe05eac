"use client";

import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayNote } from "@/app/_ui/say";
import { Segmented } from "@/app/_ui/segmented";
import type { HandName, Reach } from "@/lib/hands/hands-profile";
import { reachOfChord } from "@/lib/hands/reach-of-chord";
import { findWidestHeld, heldMilliseconds, type KeyMove } from "@/lib/hands/widest-held";
import styles from "./measure-me.module.css";
import { type MeasuredRate, MeasureRate } from "./measure-rate";
import { shortInterval } from "./passage-words";
import { TapKeyboard } from "./tap-keyboard";
import { useMidi } from "./use-midi";

type What = HandName | "rate";

/** Measures instead of asking: the widest chord of each hand, and how fast a key is struck again. */
export function MeasureMe({
  onReach,
  onRate,
}: {
  onReach: (hand: HandName, reach: Reach) => void;
  onRate: (name: MeasuredRate, perSecond: number) => void;
}) {
  const [what, setWhat] = useState<What | null>(null);
  const moves = useRef<((move: KeyMove) => void) | null>(null);
  const midi = useMidi((move) => moves.current?.(move));
  if (what === null) {
    return (
      <section className={styles.measure} aria-label="Measure me">
        <Button onClick={() => setWhat("left")}>Measure me</Button>
        <p>
          Play the widest chord that you can strike and hold, and a key as fast as is comfortable: on a
          keyboard connected to this device, or with the keys drawn here.
        </p>
      </section>
    );
  }
  return (
    <section className={styles.measure} aria-label="Measure me">
      <Segmented<What>
        label="What is measured"
        value={what}
        options={[
          { value: "left", label: "Left hand" },
          { value: "right", label: "Right hand" },
          { value: "rate", label: "Repetition" },
        ]}
        onChange={setWhat}
      />
      <MidiLine state={midi.state} onAsk={midi.ask} />
      {what === "rate" ? (
        <MeasureRate moves={moves} onRate={onRate} />
      ) : (
        <MeasureReach key={what} hand={what} moves={moves} onReach={onReach} />
      )}
    </section>
  );
}

function MidiLine({ state, onAsk }: { state: ReturnType<typeof useMidi>["state"]; onAsk: () => void }) {
  if (state.kind === "listening") {
    return (
      <p role="status">
        <Icon name="check" small /> Listening to {state.names.join(", ")}.
      </p>
    );
  }
  return (
    <>
      <Button small disabled={state.kind === "asking"} onClick={onAsk}>
        <Icon name="keys" small /> Use a connected keyboard
      </Button>
      {state.kind === "without" && <SayNote>{state.sentence}</SayNote>}
    </>
  );
}

/** Three octaves, lower for the left hand. */
const ranges = { left: { from: 36, to: 72 }, right: { from: 60, to: 96 } };

function MeasureReach({
  hand,
  moves,
  onReach,
}: {
  hand: HandName;
  moves: { current: ((move: KeyMove) => void) | null };
  onReach: (hand: HandName, reach: Reach) => void;
}) {
  const [down, setDown] = useState<ReadonlySet<number>>(new Set());
  const [held, setHeld] = useState<number | null>(null);
  const played = useRef<KeyMove[]>([]);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout>;
    const look = () => {
      const widest = findWidestHeld(played.current, performance.now());
      if (widest) setHeld(widest.spanSemitones);
    };
    moves.current = (move) => {
      played.current.push(move);
      look();
      clearTimeout(timer);
      timer = setTimeout(look, heldMilliseconds + 20);
    };
    return () => {
      clearTimeout(timer);
      moves.current = null;
    };
  }, [moves]);
  const tapped = [...down].sort((a, b) => a - b);
  const named = tapped.length > 1 ? (tapped.at(-1) ?? 0) - (tapped[0] ?? 0) : null;
  const span = named ?? held;
  const tap = (midi: number) =>
    setDown((before) => {
      const next = new Set(before);
      if (!next.delete(midi)) next.add(midi);
      return next;
    });
  const reach = span === null ? null : reachOfChord(span);
  return (
    <>
      <p>
        The widest chord that your {hand} hand can strike and hold: play it and hold it a moment, or tap its
        lowest and its highest key.
      </p>
      <TapKeyboard label={`Keys for the ${hand} hand`} {...ranges[hand]} down={down} onTap={tap} />
      <div className={styles.found} role="status">
        {reach === null ? (
          <span>Nothing yet.</span>
        ) : (
          <span>
            <b>{shortInterval(reach.possible)}</b> when it must be, <b>{shortInterval(reach.comfortable)}</b>{" "}
            with ease
          </span>
        )}
        <Button small disabled={reach === null} onClick={() => reach && onReach(hand, reach)}>
          Take it for the {hand} hand
        </Button>
        <Button
          small
          kind="bare"
          onClick={() => {
            setDown(new Set());
            setHeld(null);
            played.current = [];
          }}
        >
          Again
        </Button>
      </div>
    </>
  );
}
