"use client";

import { type ReactNode, useEffect, useRef, useState } from "react";
import { useStudyIfOpen } from "@/app/_study/study-provider";
import type { ListenRequest } from "@/lib/sound/listen-request";
import type { Schedule } from "@/lib/sound/schedule";
import { Metronome } from "./metronome";
import { MetronomeContext } from "./metronome-context";
import { Player } from "./player";
import { SoundContext } from "./sound-context";
import { SoundEngine } from "./sound-engine";
import type { SoundAddresses } from "./sound-files";

/** Between two looks at the clock, in milliseconds: more often than the eye can tell. */
const tickMs = 25;
/** Unseen, browsers let a page tick once a second only. In seconds. */
const ahead = { seen: 0.25, unseen: 1.6 };

/** The player of a piece and its metronome, for all its screens. */
export function SoundProvider({ sounds, children }: { sounds: SoundAddresses; children: ReactNode }) {
  const study = useStudyIfOpen();
  const asking = useRef<(request: ListenRequest) => Promise<Schedule>>(notYet);
  asking.current = study ? (question) => study.ask<"listen">({ kind: "listen", question }) : notYet;
  const addresses = useRef(sounds);
  const [player] = useState(() => newPlayer(asking, addresses));
  const [metronome] = useState(() => newMetronome(addresses));
  useEffect(() => takeTurns(player, metronome), [player, metronome]);
  useEffect(
    () => () => {
      player.close();
      metronome.close();
    },
    [player, metronome],
  );
  return (
    <SoundContext.Provider value={player}>
      <MetronomeContext.Provider value={metronome}>{children}</MetronomeContext.Provider>
    </SoundContext.Provider>
  );
}

/** Two beats at once would only confuse: whichever begins silences the other. @returns stops it. */
function takeTurns(player: Player, metronome: Metronome): () => void {
  const isHeard = () => player.state().status === "playing" || player.state().status === "preparing";
  const stopHearing = [
    player.subscribe(() => {
      if (isHeard()) metronome.stop();
    }),
    metronome.subscribe(() => {
      if (metronome.state().beating !== null && isHeard()) player.stop();
    }),
  ];
  return () => {
    for (const stop of stopHearing) stop();
  };
}

function notYet(): Promise<never> {
  return Promise.reject(new Error("The study of the piece is not there yet"));
}

interface Holder<T> {
  readonly current: T;
}

function newPlayer(
  asking: Holder<(request: ListenRequest) => Promise<Schedule>>,
  addresses: Holder<SoundAddresses>,
): Player {
  return new Player({
    makeEngine: () => new SoundEngine(addresses.current),
    perform: (request) => asking.current(request),
    repeat: repeatInPage,
    ahead: aheadNow,
  });
}

function newMetronome(addresses: Holder<SoundAddresses>): Metronome {
  return new Metronome({
    makeEngine: () => new SoundEngine(addresses.current),
    repeat: repeatInPage,
    ahead: aheadNow,
  });
}

const aheadNow = () => (document.hidden ? ahead.unseen : ahead.seen);

/**
 * With a timer rather than with each frame, because a frame that changes nothing costs too; and at once when the page comes
 * into view or goes out of it.
 */
function repeatInPage(tick: () => void): () => void {
  const timer = setInterval(tick, tickMs);
  document.addEventListener("visibilitychange", tick);
  return () => {
    clearInterval(timer);
    document.removeEventListener("visibilitychange", tick);
  };
}
