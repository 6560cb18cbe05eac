import { subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type Division, findDivisions } from "./division";
import { strokesOfHand, type TimedNote } from "./hand-stroke";
import type { HandName, HandsProfile } from "./hands-profile";
import type { Strain } from "./strain";
import { findCrossing } from "./strains/crossing";
import type { Found } from "./strains/found";
import { findLeap } from "./strains/leap";
import { findRates, isWide } from "./strains/rates";
import { findCrowd, findHeldNote, findStretch } from "./strains/stretch";

/** One way of sharing a bar between the hands, and what it asks of them. */
export interface BarOption {
  readonly division: Division;
  /** The heaviest first, at the tempo that was read; one of a kind and hand. */
  readonly strains: readonly Strain[];
}

/** What a bar asks as it is printed, and in every way of sharing it that is the easiest at some tempo. */
export interface BarOptions {
  readonly printed: BarOption;
  readonly easiest: readonly BarOption[];
}

/**
 * What a bar asks of the hands.
 *
 * @param notes those of the bar and, before them, as many as tell where the hands come from.
 */
export function findBarOptions(
  score: Score,
  notes: readonly TimedNote[],
  barIndex: number,
  hands: HandsProfile,
): BarOptions {
  const options = findDivisions(notes).map((division) => ({
    division,
    found: findStrains(notes, division, barIndex, hands),
  }));
  const told = ({ division, found }: Weighed) => toOption(score, division, found);
  return { printed: told(options[0] as Weighed), easiest: easiest(options).map(told) };
}

/** What a bar asks with each hand on its own staff, and nothing else: for weighing many versions of it. */
export function findPrintedOption(
  score: Score,
  notes: readonly TimedNote[],
  barIndex: number,
  hands: HandsProfile,
): BarOption {
  const division = { by: "staff" } as const;
  return toOption(score, division, findStrains(notes, division, barIndex, hands));
}

function toOption(score: Score, division: Division, found: readonly Found[]): BarOption {
  return { division, strains: found.map((each) => tell(score, each)).sort((a, b) => b.load - a.load) };
}

function findStrains(
  notes: readonly TimedNote[],
  division: Division,
  barIndex: number,
  hands: HandsProfile,
): Found[] {
  const ofHand = (hand: HandName) => {
    const strokes = strokesOfHand(notes, division, hand, barIndex);
    const reach = hands[hand];
    return {
      strokes,
      found: [
        findStretch(strokes, reach, hand),
        findHeldNote(strokes, reach, hand),
        findCrowd(strokes, hand),
        findLeap(strokes, hands, hand),
        ...findRates(strokes, hands, hand),
      ],
    };
  };
  const [left, right] = [ofHand("left"), ofHand("right")];
  const all = [...left.found, ...right.found, findCrossing(left.strokes, right.strokes)];
  return all.filter((found) => found !== null);
}

interface Weighed {
  readonly division: Division;
  readonly found: readonly Found[];
}

/** The options that no other beats, whatever the tempo; the first of equals. */
function easiest(options: readonly Weighed[]): Weighed[] {
  const weighed = options.map((option) => ({ option, loads: loadsOf(option) }));
  return weighed
    .filter(
      ({ loads }, index) =>
        !weighed.some((other, place) => place !== index && beats(other.loads, loads, place < index)),
    )
    .map(({ option }) => option);
}

/** What the tempo leaves as it is; what grows with it; and leaps, which grow up to a bound. */
function loadsOf({ found }: Weighed): number[] {
  const kinds = [
    (each: Found) => !each.isTimed,
    (each: Found) => each.isTimed && each.kind !== "leap",
    (each: Found) => each.kind === "leap",
  ];
  return kinds.map((isOf) => Math.max(0, ...found.filter(isOf).map(({ load }) => load)));
}

function beats(a: readonly number[], b: readonly number[], isFirst: boolean): boolean {
  const differences = a.map((load, index) => load - (b[index] ?? 0));
  return differences.every((more) => more <= 0) && (isFirst || differences.some((more) => more < 0));
}

const isOfChords = ({ kind }: Pick<Found, "kind">) =>
  kind === "repeated chord" || kind === "octaves in a row";

function tell(score: Score, { strokes, availableSeconds, ...found }: Found): Strain {
  const last = strokes.at(-1)?.notes[0];
  const barIndex = last?.barIndex ?? 0;
  const start = score.bars[barIndex]?.start;
  if (!last || !start) throw new RangeError(`The score has no bar with index ${barIndex}`);
  return {
    ...found,
    availableSeconds: availableSeconds ?? null,
    isOfOctaves: isOfChords(found) && strokes.every(isWide),
    noteIds: strokes.flatMap(({ notes }) => notes.map(({ id }) => id)),
    at: { barIndex, offset: subtractQuarters(last.onset, start) },
  };
}
