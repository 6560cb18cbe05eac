import type { BarUnderHands, HandsVerdict } from "./at-tempo";
import type { Strain, StrainKind } from "./strain";

/** Neighbouring bars that are awkward for the same reason. */
export interface AwkwardPassage {
  readonly fromBar: number;
  /** The last bar, included. */
  readonly toBar: number;
  /** The worst of its bars, shared in the easiest way. */
  readonly verdict: HandsVerdict;
  /** Of the worst bar. */
  readonly difficulty: number;
  /** As printed: what it is called awkward for. */
  readonly kind: StrainKind;
  readonly hand: Strain["hand"];
  /** The heaviest strain of that kind and hand. */
  readonly strain: Strain;
  /** Sharing the notes otherwise between the hands makes every bar of it easy. */
  readonly isEasyWhenShared: boolean;
}

/** A single easy bar between two awkward ones does not part them. Ours. */
const mostBetween = 1;

/** What is told as one: chords that stay and chords that move are the same trouble. */
const family = (kind: StrainKind) => (kind === "octaves in a row" ? "repeated chord" : kind);

/**
 * The awkward passages, in the order of the page: bars that are awkward as printed, joined where neighbours are so for
 * the same reason in the same hand.
 */
export function findPassages(bars: readonly BarUnderHands[]): AwkwardPassage[] {
  const passages: AwkwardPassage[] = [];
  for (const bar of bars) {
    const [strain] = bar.printed?.strains ?? [];
    if (!strain || bar.printed?.verdict === "easy") continue;
    const last = passages.at(-1);
    const goesOn =
      last &&
      bar.barIndex - last.toBar - 1 <= mostBetween &&
      last.hand === strain.hand &&
      family(last.kind) === family(strain.kind);
    if (last && goesOn) passages[passages.length - 1] = lengthen(last, bar, strain);
    else passages.push(begin(bar, strain));
  }
  return passages;
}

function begin({ barIndex, verdict, difficulty }: BarUnderHands, strain: Strain): AwkwardPassage {
  const { kind, hand } = strain;
  const isEasyWhenShared = verdict === "easy";
  return { fromBar: barIndex, toBar: barIndex, verdict, difficulty, kind, hand, strain, isEasyWhenShared };
}

const order: readonly HandsVerdict[] = ["easy", "awkward", "not playable"];

function lengthen(passage: AwkwardPassage, bar: BarUnderHands, strain: Strain): AwkwardPassage {
  const heavier = strain.load > passage.strain.load ? strain : passage.strain;
  return {
    ...passage,
    toBar: bar.barIndex,
    verdict: order[Math.max(order.indexOf(passage.verdict), order.indexOf(bar.verdict))] ?? "easy",
    difficulty: Math.max(passage.difficulty, bar.difficulty),
    kind: heavier.kind,
    strain: heavier,
    isEasyWhenShared: passage.isEasyWhenShared && bar.verdict === "easy",
  };
}
