import type { Cadence } from "@/lib/harmony/find-cadences";
import type { Hypermetre } from "@/lib/harmony/find-hypermetre";
import type { LocalKey } from "@/lib/harmony/find-local-keys";
import type { PhraseStart } from "@/lib/harmony/find-phrases";
import { frameIndexAt } from "@/lib/harmony/frames";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { compareQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { governingBar } from "./governing-bar";
import type { Side } from "./side";
import type { SideHearer } from "./side-hearer";

/** What a place is, apart from any other: worked out once, and used for all cuts that begin or end there. */
export interface Place {
  readonly position: Position;
  /** The bar that phrases and large bars are counted by; may be the number of bars, behind the last. */
  readonly bar: number;
  /** Place of that bar in its large bar of four, from 0. */
  readonly inLargeBar: number;
  /** How surely a phrase begins with that bar, 0 to 1. */
  readonly phraseStart: number;
  /** A cadence that arrived in the bar before. */
  readonly cadenceBefore: Cadence["kind"] | null;
  /** The keys heard just before the place and from it on; null where the piece has no bars there. */
  readonly keyBefore: LocalKey | null;
  readonly keyAfter: LocalKey | null;
  readonly before: Side | null;
  readonly after: Side | null;
}

interface Hearing {
  readonly score: Score;
  readonly keys: readonly LocalKey[];
  readonly phrases: readonly PhraseStart[];
  readonly hypermetre: Hypermetre;
  readonly sides: SideHearer;
}

/** From here on a phrase is taken to begin with a bar. */
export const phraseBegins = 0.5;

function startOf(phrases: readonly PhraseStart[], bar: number): number {
  const start = phrases[bar];
  // Behind the last bar the last phrase has ended.
  if (!start) return bar >= phrases.length ? 1 : 0;
  return start.isChosen ? Math.max(0.6, start.likelihood) : start.likelihood / 2;
}

/** The places of one piece. */
export class Places {
  private readonly known = new Map<string, Place>();
  private readonly largeBars: readonly number[];

  constructor(private readonly hearing: Hearing) {
    const inLargeBar: number[] = [];
    for (const { from, to } of hearing.hypermetre.groups) {
      for (let bar = from; bar < to; bar += 1) inLargeBar[bar] = bar - from;
    }
    this.largeBars = inLargeBar;
  }

  /** @throws RangeError outside the piece. */
  at(position: Position): Place {
    const name = `${position.barIndex}:${writeQuarters(position.offset)}`;
    const known = this.known.get(name);
    if (known) return known;
    const place = this.find(position);
    this.known.set(name, place);
    return place;
  }

  private find(position: Position): Place {
    const { score, keys, phrases, sides } = this.hearing;
    const time = onsetOf(score, position);
    const bar = governingBar(score, position);
    const next = Math.max(0, frameIndexAt(keys, time));
    const begins = keys[next] && compareQuarters((keys[next] as LocalKey).onset, time) === 0;
    return {
      position,
      bar,
      inLargeBar: this.largeBars[bar] ?? 0,
      phraseStart: startOf(phrases, bar),
      cadenceBefore: phrases[bar]?.evidence.cadenceBefore ?? null,
      keyBefore: keys[begins ? next - 1 : next] ?? keys[next] ?? null,
      keyAfter: keys[next] ?? null,
      before: sides.before(position),
      after: sides.after(position),
    };
  }
}
