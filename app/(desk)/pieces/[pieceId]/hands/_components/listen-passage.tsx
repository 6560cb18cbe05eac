"use client";

import { useSound } from "@/app/_sound/sound-context";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { noQuarters, type Quarters } from "@/lib/score/quarters";
import { tempoPercents } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";
import type { Bars } from "./passage-state";

/** "Listen" for some bars as printed, or with a rewrite in their place, at the tempo of the slider. */
export function ListenPassage({
  bars: { fromBar, toBar },
  lastBar,
  lastLength,
  rewrite,
  pace,
  what,
}: {
  bars: Bars;
  /** Of the piece, by index. */
  lastBar: number;
  /** Length of the last bar of the piece in quarters, as a position names its end. */
  lastLength: Quarters;
  rewrite: RewriteTerms | null;
  pace: number;
  /** What is heard, for those who hear the page: "as printed". */
  what: string;
}) {
  const sound = useSound();
  const request: ListenRequest = {
    kind: "span",
    from: { barIndex: fromBar, offset: noQuarters },
    to:
      toBar < lastBar ? { barIndex: toBar + 1, offset: noQuarters } : { barIndex: toBar, offset: lastLength },
    cuts: [],
    ...(rewrite && { rewrites: [rewrite] }),
  };
  const isMine = JSON.stringify(sound.now.request) === JSON.stringify(request);
  const isOn = isMine && (sound.now.status === "playing" || sound.now.status === "preparing");
  const press = () => {
    if (isOn) return sound.stop();
    const percent = Math.round(100 * pace);
    const tempoPercent = Math.min(tempoPercents.fastest, Math.max(tempoPercents.slowest, percent));
    sound.change({ tempoPercent, hasSolo: true, hasAccompaniment: true });
    sound.play(request);
  };
  return (
    <Button small onClick={press} aria-label={`${isOn ? "Stop" : "Listen"}, ${what}`}>
      <Icon name={isOn ? "stop" : "play"} small /> {isOn ? "Stop" : "Listen"}
    </Button>
  );
}
