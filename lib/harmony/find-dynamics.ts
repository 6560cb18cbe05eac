import type { Direction } from "@/lib/score/direction";
import type { Part } from "@/lib/score/part";
import { pieceLength } from "@/lib/score/piece-length";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A printed level and from where it holds. */
export interface DynamicLevel {
  readonly onset: Quarters;
  /** As printed: "mf", "fp". */
  readonly mark: string;
  /** Steps from the softest: ppp is 0, pp 1, p 2, mp 3, mf 4, f 5, ff 6, fff 7; more p or f go beyond. */
  readonly level: number;
}

/** A hairpin. Written time, end exclusive. */
export interface Hairpin {
  readonly from: Quarters;
  readonly to: Quarters;
  readonly type: "crescendo" | "diminuendo";
}

export interface PartDynamics {
  readonly levels: readonly DynamicLevel[];
  readonly hairpins: readonly Hairpin[];
}

/** What is in force at one time. */
export interface DynamicInForce {
  /** Null before the first mark. */
  readonly level: DynamicLevel | null;
  /** The hairpin under way. */
  readonly hairpin: Hairpin | null;
}

const plainLevels: Readonly<Record<string, number>> = { mp: 3, mf: 4 };

/**
 * The level that holds from a mark on: of "fp" the p; accents such as "sf" leave the level as it is.
 *
 * Source: common practice.
 */
export function levelAfter(mark: string): number | null {
  const plain = plainLevels[mark];
  if (plain !== undefined) return plain;
  const last = /^(?:(?:sf|rf|sff|f+)(?=p))?(p+|f+)$/.exec(mark)?.[1];
  if (!last) return null;
  return last.startsWith("p") ? 3 - last.length : 4 + last.length;
}

type Wedge = Extract<Direction, { kind: "wedge" }>;

/** A hairpin that nothing stops ends where the next of its number begins, or with the piece. */
function pairWedges(wedges: readonly Wedge[], end: Quarters): Hairpin[] {
  const hairpins: Hairpin[] = [];
  const open = new Map<number, { from: Quarters; type: Hairpin["type"] }>();
  const close = (number: number, to: Quarters) => {
    const begun = open.get(number);
    open.delete(number);
    if (begun && compareQuarters(begun.from, to) < 0) hairpins.push({ ...begun, to });
  };
  for (const wedge of wedges) {
    if (wedge.type === "continue") continue;
    close(wedge.number, wedge.onset);
    if (wedge.type !== "stop") open.set(wedge.number, { from: wedge.onset, type: wedge.type });
  }
  for (const number of [...open.keys()]) close(number, end);
  return hairpins.sort((a, b) => compareQuarters(a.from, b.from));
}

/** The printed dynamics of one part, by onset; marks on any of its staves count for the part. */
export function findDynamics(score: Score, part: Part): PartDynamics {
  const byOnset = part.directions.toSorted((a, b) => compareQuarters(a.onset, b.onset));
  const levels = byOnset.flatMap((direction): DynamicLevel[] => {
    if (direction.kind !== "dynamic") return [];
    const level = levelAfter(direction.mark);
    return level === null ? [] : [{ onset: direction.onset, mark: direction.mark, level }];
  });
  const wedges = byOnset.filter((direction) => direction.kind === "wedge");
  return { levels, hairpins: pairWedges(wedges, pieceLength(score)) };
}

/** What a part's dynamics say at a written time. */
export function dynamicsAt({ levels, hairpins }: PartDynamics, time: Quarters): DynamicInForce {
  const holds = ({ from, to }: Hairpin) => compareQuarters(from, time) <= 0 && compareQuarters(time, to) < 0;
  return {
    level: levels.findLast(({ onset }) => compareQuarters(onset, time) <= 0) ?? null,
    hairpin: hairpins.findLast(holds) ?? null,
  };
}
