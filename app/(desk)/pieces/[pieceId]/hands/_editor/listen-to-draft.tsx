"use client";

import { useSound } from "@/app/_sound/sound-context";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { tempoPercents } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";

/** Plays what is written, from its first bar to its last, and stops it. */
export function useListenToDraft(terms: RewriteTerms, pace: number): { isOn: boolean; press: () => void } {
  const sound = useSound();
  const request: ListenRequest = {
    kind: "span",
    from: toPosition(terms.from),
    to: toPosition(terms.to),
    cuts: [],
    rewrites: [terms],
  };
  const isMine = JSON.stringify(sound.now.request) === JSON.stringify(request);
  const isOn = isMine && (sound.now.status === "playing" || sound.now.status === "preparing");
  const press = () => {
    if (isOn) return sound.stop();
    const tempoPercent = Math.min(
      tempoPercents.fastest,
      Math.max(tempoPercents.slowest, Math.round(100 * pace)),
    );
    sound.change({ tempoPercent, hasSolo: true, hasAccompaniment: true });
    sound.play(request);
  };
  return { isOn, press };
}

export function ListenToDraft({ isOn, press }: { isOn: boolean; press: () => void }) {
  return (
    <Button small onClick={press} aria-keyshortcuts="Space">
      <Icon name={isOn ? "stop" : "play"} small /> {isOn ? "Stop" : "Listen"}
    </Button>
  );
}
