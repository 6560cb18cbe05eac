import type { Desk, DeskTutti } from "@/app/_data/desk/desk";
import { readClock } from "@/app/_ui/clock";
import { nameBars, namePlace } from "@/app/_ui/name-span";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { type PositionTerms, toPosition } from "@/lib/edition/position-terms";
import { comparePositions } from "@/lib/score/position";
import type { CutSearch } from "@/lib/study/look-for-cuts";
import { afterBar } from "../_cuts/cut-draft";
import { agreedCuts, type CutEnds, spanOfEnds } from "../_cuts/cut-questions";

/** Where cuts are looked for. */
export type SearchPlace =
  /** By its place in the list of tuttis. */
  | { readonly kind: "tutti"; readonly index: number }
  | { readonly kind: "marked"; readonly span: BarSpan }
  /** Play up to here; go on before the soloist's next entry. */
  | { readonly kind: "from-here"; readonly bar: number }
  /** Places to begin the piece at. */
  | { readonly kind: "start" };

/** What was chosen in the form of a search. */
export interface SearchSettings {
  readonly place: SearchPlace;
  readonly resolution: "bars" | "beats";
  /** Whole bars before the entry that stay; null for what is usual. */
  readonly keepLastBars: number | null;
  readonly keepRehearsal: readonly string[];
  readonly keepTheme: boolean;
  /** As typed: "0:20". */
  readonly savesAtLeast: string;
}

export function settingsFor(place: SearchPlace): SearchSettings {
  return {
    ...{ place, resolution: "bars", keepLastBars: null, keepRehearsal: [], keepTheme: false },
    savesAtLeast: "",
  };
}

type Where = Pick<Desk, "tuttis" | "bars">;

/** The tutti in which a place lies, else the next one; null after the last. */
function tuttiFrom({ tuttis }: Pick<Desk, "tuttis">, at: PositionTerms): DeskTutti | null {
  const here = toPosition(at);
  return tuttis.find(({ end }) => comparePositions(toPosition(end), here) > 0) ?? null;
}

/** The stretch that is searched; null when there is none such in this piece. */
export function spanOfPlace(desk: Where, place: SearchPlace): CutEnds | null {
  const beginning: PositionTerms = { barIndex: 0, offset: "0" };
  switch (place.kind) {
    case "tutti": {
      const tutti = desk.tuttis[place.index];
      return tutti ? { from: tutti.start, to: tutti.end } : null;
    }
    case "marked": {
      const { firstBar, lastBar } = place.span;
      return { from: { barIndex: firstBar, offset: "0" }, to: afterBar(desk.bars, lastBar) };
    }
    case "from-here": {
      const from: PositionTerms = { barIndex: place.bar, offset: "0" };
      const tutti = tuttiFrom(desk, from);
      return tutti ? { from, to: tutti.end } : null;
    }
    case "start": {
      const tutti = tuttiFrom(desk, beginning);
      return tutti ? { from: beginning, to: tutti.end } : null;
    }
  }
}

/** A place in words: "tutti at D, bars 81–100". */
export function namePlaceOfSearch(desk: Where, place: SearchPlace): string {
  switch (place.kind) {
    case "tutti": {
      const tutti = desk.tuttis[place.index];
      if (!tutti) return "a tutti that is no longer there";
      const { firstLabel, lastLabel, letter } = tutti;
      const bars = firstLabel === lastLabel ? `bar ${firstLabel}` : `bars ${firstLabel}–${lastLabel}`;
      return `Tutti${letter ? ` at ${letter}` : ""}, ${bars}`;
    }
    case "marked":
      return `Marked ${nameBars(desk.bars, place.span)}`;
    case "from-here":
      return `From ${namePlace(desk.bars, { barIndex: place.bar, offset: "0" })} to the next entry`;
    case "start":
      return "Start at: leave the beginning out";
  }
}

/** What is to stay, in words: "Keep the last 4 bars, letter E; by beats; save 0:20". */
export function sayKept(settings: SearchSettings): string {
  const { keepLastBars, keepRehearsal, keepTheme, resolution, savesAtLeast } = settings;
  const kept = [
    ...(keepLastBars === null ? [] : [`the last ${keepLastBars} bars`]),
    ...keepRehearsal.map((letter) => `letter ${letter}`),
    ...(keepTheme ? ["every theme"] : []),
  ];
  const said = [
    kept.length === 0 ? "Nothing more to keep" : `Keep ${kept.join(", ")}`,
    ...(savesAtLeast.trim() === "" ? [] : [`save ${savesAtLeast.trim()} or more`]),
    resolution === "bars" ? "whole bars" : "by beats",
  ];
  return said.join("; ");
}

/** The rehearsal marks in a stretch, each once. */
export function lettersWithin({ strip }: Pick<Desk, "strip">, { from, to }: CutEnds): string[] {
  const barAt = (second: number) => strip.bars.findLast((bar) => bar.from <= second + 0.01)?.barIndex ?? 0;
  const inside = strip.letters.filter(({ at }) => {
    const bar = barAt(at);
    return bar >= from.barIndex && (bar < to.barIndex || (bar === to.barIndex && to.offset !== "0"));
  });
  return [...new Set(inside.map(({ text }) => text))];
}

/** What is wrong with a length that was typed; null when nothing is. */
export function lengthProblem(text: string): string | null {
  return text.trim() === "" || readClock(text) !== null ? null : "Write it as minutes and seconds: 0:20.";
}

/**
 * The search as the study is asked for it.
 *
 * @param number of a proposal that may give way to what is found; its agreed cut is not counted. Null for none.
 * @returns null when the piece has no such stretch.
 */
export function toCutSearch(
  desk: Where & Pick<Desk, "cuts" | "needs">,
  settings: SearchSettings,
  number: number | null = null,
): CutSearch | null {
  const { place, resolution, keepLastBars, keepRehearsal, keepTheme, savesAtLeast } = settings;
  const ends = spanOfPlace(desk, place);
  if (!ends) return null;
  const span = spanOfEnds(ends);
  if (comparePositions(span.from, span.to) >= 0) return null;
  const leastSeconds = savesAtLeast.trim() === "" ? null : readClock(savesAtLeast);
  return {
    span,
    look: place.kind === "start" ? "starts" : "anywhere",
    filters: {
      resolution,
      ...(place.kind === "from-here" && { from: span.from }),
      ...(keepLastBars !== null && { keepLastBars }),
      ...(keepRehearsal.length > 0 && { keepRehearsal }),
      ...(keepTheme && { keepTheme }),
      ...(leastSeconds !== null && { leastSeconds }),
    },
    agreed: agreedCuts(desk, number),
    needs: desk.needs,
  };
}

/** The tutti that a cut has most of, by its place in the list; null when it touches none. */
export function tuttiOfCut(
  desk: Pick<Desk, "tuttis">,
  gaps: readonly { readonly from: number; readonly to: number }[],
): number | null {
  const shared = desk.tuttis.map((tutti) =>
    gaps.reduce(
      (sum, gap) => sum + Math.max(0, Math.min(gap.to, tutti.to) - Math.max(gap.from, tutti.from)),
      0,
    ),
  );
  const most = Math.max(0, ...shared);
  return most > 0.01 ? shared.indexOf(most) : null;
}
