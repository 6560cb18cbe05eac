import { sayClock } from "@/lib/score/say-clock";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import type { EditionContent } from "./edition-content";
import type { EditionDifference, PlaceNames } from "./edition-difference";
import { type PositionTerms, toPosition } from "./position-terms";
import type { TempoTerms } from "./tempo-terms";
import { timeEdition } from "./time-edition";

/**
 * What the duo decided otherwise about time from `a` to `b`: one difference for each tempo, timing and allowance. The
 * time of each is what it alone does to `b`, so that they need not add up to the whole.
 */
export function compareTempi(
  score: Score,
  a: EditionContent,
  b: EditionContent,
  names: PlaceNames,
): EditionDifference[] {
  const [before, after] = [a.tempo, b.tempo];
  return [
    ...compareMarks(names, before, after),
    ...compareTimings(names, before, after),
    ...compareAllowances(before, after),
  ].map(({ sentence, without }) => ({
    kind: "tempo-changed",
    sentence,
    secondsLonger: timeOf(score, b, without),
    before: null,
    after: null,
    mark: null,
  }));
}

interface TempoChange {
  readonly sentence: string;
  /** The later decisions as they would be without this change. */
  readonly without: TempoTerms;
}

function timeOf(score: Score, content: EditionContent, without: TempoTerms): Seconds {
  const withIt = timeEdition(score, content).seconds;
  return seconds(withIt - timeEdition(score, { ...content, tempo: without }).seconds);
}

function compareMarks(names: PlaceNames, before: TempoTerms, after: TempoTerms): TempoChange[] {
  return placesOf([...before.tempi, ...after.tempi].map(({ at }) => at)).flatMap((at) => {
    const [old, now] = [before, after].map(({ tempi }) => tempi.find((tempo) => isSame(tempo.at, at)));
    if (old?.quartersPerMinute === now?.quartersPerMinute) return [];
    const rest = after.tempi.filter((tempo) => !isSame(tempo.at, at));
    const place = capital(names.place(toPosition(at)));
    const sentence = now
      ? `${place}: ${now.quartersPerMinute} quarters a minute instead of ${old?.quartersPerMinute ?? "the printed tempo"}.`
      : `${place}: the printed tempo instead of ${old?.quartersPerMinute} quarters a minute.`;
    return [{ sentence, without: { ...after, tempi: old ? [...rest, old] : rest } }];
  });
}

function compareTimings(names: PlaceNames, before: TempoTerms, after: TempoTerms): TempoChange[] {
  const key = ({ from, to }: TempoTerms["timings"][number]) => JSON.stringify([from, to]);
  const all = new Map([...before.timings, ...after.timings].map((timing) => [key(timing), timing]));
  return [...all.values()].flatMap((timing) => {
    const [old, now] = [before, after].map(({ timings }) =>
      timings.find((other) => key(other) === key(timing)),
    );
    if (old?.seconds === now?.seconds) return [];
    const rest = after.timings.filter((other) => key(other) !== key(timing));
    const span = `${names.place(toPosition(timing.from))} to ${names.place(toPosition(timing.to))}`;
    const sentence = now
      ? `From ${span}: timed at ${sayClock(now.seconds)}${old ? ` instead of ${sayClock(old.seconds)}` : ""}.`
      : `From ${span}: no timing of your own any more.`;
    return [{ sentence, without: { ...after, timings: old ? [...rest, old] : rest } }];
  });
}

function compareAllowances(before: TempoTerms, after: TempoTerms): TempoChange[] {
  const allowances = [
    [
      "ritardandoTo",
      "A ritardando goes down to",
      (value: number) => `${Math.round(value * 100)} % of the tempo`,
    ],
    ["fermataFactor", "A fermata is held", (value: number) => `${value} times its length`],
  ] as const;
  return allowances
    .filter(([field]) => before[field] !== after[field])
    .map(([field, words, say]) => ({
      sentence: `${words} ${say(after[field])} instead of ${say(before[field])}.`,
      without: { ...after, [field]: before[field] },
    }));
}

function placesOf(places: readonly PositionTerms[]): PositionTerms[] {
  return places.filter((place, index) => places.findIndex((other) => isSame(other, place)) === index);
}

function isSame(a: PositionTerms, b: PositionTerms): boolean {
  return a.barIndex === b.barIndex && a.offset === b.offset;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
