"use client";

import { useContext, useEffect, useState } from "react";
import { SoundContext, useSound } from "@/app/_sound/sound-context";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import type { CutSpan } from "@/lib/score/cut-span";
import { barsAroundJoin, type ListenRequest } from "@/lib/sound/listen-request";

interface Join {
  readonly cut: CutSpan;
  /** The other cuts that are made while it is heard. */
  readonly cuts: readonly CutSpan[];
}

/** Both joins one after the other. Nothing stands here where nothing can sound. */
export function WeighListen({ joins }: { joins: readonly [Join, Join] }) {
  return useContext(SoundContext) === null ? null : <BothInTurn joins={joins} />;
}

function requestOf({ cut, cuts }: Join): ListenRequest {
  return {
    ...{ kind: "join", cut, cuts, barsBefore: barsAroundJoin, barsAfter: barsAroundJoin },
    how: "with-the-cut",
  };
}

const isSame = (one: ListenRequest | null, other: ListenRequest) =>
  one !== null && JSON.stringify(one) === JSON.stringify(other);

function BothInTurn({ joins: [first, second] }: { joins: readonly [Join, Join] }) {
  const { now, play, stop } = useSound();
  /** Which of the two was started from here. */
  const [turn, setTurn] = useState<"first" | "second" | null>(null);
  const hasEnded = now.status === "silent";
  const isFirst = isSame(now.request, requestOf(first));
  // biome-ignore lint/correctness/useExhaustiveDependencies: it goes on when the sound ends, and for nothing else
  useEffect(() => {
    if (!hasEnded || turn === null) return;
    // One that was stopped is forgotten; one that came to its end is still the request.
    if (turn === "first" && isFirst) {
      play(requestOf(second));
      setTurn("second");
    } else {
      setTurn(null);
    }
  }, [hasEnded]);
  const start = () => {
    play(requestOf(first));
    setTurn("first");
  };
  const end = () => {
    setTurn(null);
    stop();
  };
  return (
    <Button small onClick={turn === null ? start : end}>
      <Icon name={turn === null ? "play" : "stop"} small />
      {turn === null ? "Listen to both in turn" : "Stop"}
    </Button>
  );
}
