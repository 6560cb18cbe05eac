import type { SettingsBar } from "@/app/_data/read-piece-settings";
import { readClock } from "@/app/_ui/clock";
import type { PositionTerms } from "@/lib/edition/position-terms";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import { sayClock } from "@/lib/score/say-clock";

/** The duo's decisions about time while they are being written: numbers are what stands in the fields. */
export interface TempoDraft {
  /** Beats a minute, counted in the beat of the bar. */
  readonly tempi: readonly { readonly at: PositionTerms; readonly beats: string }[];
  readonly timings: readonly {
    readonly from: PositionTerms;
    readonly to: PositionTerms;
    readonly clock: string;
  }[];
  readonly fermataFactor: string;
  /** Per cent of the tempo before. */
  readonly ritardandoTo: string;
}

const beatOf = (bars: readonly SettingsBar[], at: PositionTerms) => bars[at.barIndex]?.beatQuarters ?? 1;

function isSame(a: PositionTerms, b: PositionTerms): boolean {
  return a.barIndex === b.barIndex && a.offset === b.offset;
}

/** The fields as stored decisions fill them; every printed tempo has one of its own, empty until the duo fills it. */
export function draftTempo(
  settings: TempoTerms,
  printed: readonly PositionTerms[],
  bars: readonly SettingsBar[],
): TempoDraft {
  const own = settings.tempi.map(({ at, quartersPerMinute }) => ({
    at,
    beats: `${Math.round((quartersPerMinute / beatOf(bars, at)) * 10) / 10}`,
  }));
  const empty = printed
    .filter((place) => !own.some(({ at }) => isSame(at, place)))
    .map(({ barIndex, offset }) => ({ at: { barIndex, offset }, beats: "" }));
  return {
    tempi: [...own, ...empty].sort((a, b) => a.at.barIndex - b.at.barIndex),
    timings: settings.timings.map(({ from, to, seconds }) => ({ from, to, clock: sayClock(seconds) })),
    fermataFactor: `${settings.fermataFactor}`,
    ritardandoTo: `${Math.round(settings.ritardandoTo * 100)}`,
  };
}

/** A number as people write it, with a point or a comma; null for anything else. */
function readNumber(text: string): number | null {
  return /^\s*\d+(?:[.,]\d+)?\s*$/.test(text) ? Number(text.replace(",", ".")) : null;
}

/** What the fields say, or the sentence that says which of them cannot be read. */
export function readDraft(
  draft: TempoDraft,
  bars: readonly SettingsBar[],
): { readonly settings: TempoTerms } | { readonly sentence: string } {
  const label = (at: PositionTerms) => bars[at.barIndex]?.label ?? "";
  const tempi: TempoTerms["tempi"] = [];
  for (const { at, beats } of draft.tempi) {
    if (beats.trim() === "") continue;
    const number = readNumber(beats);
    if (number === null) return { sentence: `The tempo at bar ${label(at)} is no number of beats a minute.` };
    tempi.push({ at, quartersPerMinute: number * beatOf(bars, at) });
  }
  const timings: TempoTerms["timings"] = [];
  for (const { from, to, clock } of draft.timings) {
    const seconds = readClock(clock);
    if (seconds === null)
      return { sentence: `Write the time from bar ${label(from)} as minutes and seconds: 1:05.` };
    timings.push({ from, to, seconds });
  }
  const [fermata, ritardando] = [readNumber(draft.fermataFactor), readNumber(draft.ritardandoTo)];
  if (fermata === null)
    return { sentence: "The fermata’s length is no number. 1.75 is one and three quarters." };
  if (ritardando === null) return { sentence: "The ritardando’s end is no number of per cent." };
  return { settings: { tempi, timings, fermataFactor: fermata, ritardandoTo: ritardando / 100 } };
}
