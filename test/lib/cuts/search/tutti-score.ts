import fc from "fast-check";
import type { Score } from "@/lib/score/score";
import { buildScore } from "../../../builders/build-score";

/** Bars of a tutti in C major or near it, each unlike the others: right hand, left hand. */
export const tuttiBars: readonly { readonly right: string; readonly left: string }[] = [
  { right: "c5:q e5 g5 e5", left: "c3+g3:h e3+c4" },
  { right: "d5:q. e5:e f5:q d5", left: "d3+a3:h f3+d4" },
  { right: "b4:e c5 d5 e5 f5:q d5", left: "g2+d3:h g3+f4" },
  { right: "c5:h. r:q", left: "c3+g3:h c3" },
  { right: "a4:q c5 f5 a5", left: "f2+c3:q f3 a3 c4" },
  { right: "g5:q. f5:e e5:h", left: "c3:q g3 e3 g3" },
  { right: "e5:e d5 c5 b4 a4:h", left: "a2+e3:w" },
  { right: "f#5:q g5 a5 c6", left: "d3+a3:q f#3+c4:h d3:q" },
  { right: "b5:h g5:q d5", left: "g2+d3+b3:w" },
  { right: "eb5:q c5 ab4:h", left: "ab2+eb3:h f2" },
  { right: "d5:s e5 f5 g5 a5:q g5 f5", left: "b2+f3:h d3+g3" },
  { right: "a5:q. g5:s f5 e5:h", left: "f3+a3:h c3+g3" },
  { right: "g4:h a4:q b4", left: "g3:q f3 e3 d3" },
  { right: "c6:e b5 a5 g5 f5 e5 d5 c5", left: "e3+c4:h f3+d4" },
  { right: "r:q c5+e5 d5+f5 e5+g5", left: "c3:q c3 b2 a2" },
  { right: "g#4:q b4 e5 g#5", left: "e3+b3:w" },
  { right: "a4:e c5 e5 a5 e5:h", left: "a3:h c3" },
  { right: "d5+g5:q d5+g5 d5+f5 d5+f5", left: "b2:q d3 g3 b3" },
];

/** Bars of the soloist's after the tutti, over plain chords. */
const after = Array.from({ length: 4 }, () => ({
  solo: "g5:h e5:q c5",
  right: "e4+g4:h e4+g4",
  left: "c3:w",
}));

export interface TuttiText {
  readonly order: readonly number[];
  readonly key?: number;
}

/** One bar of the soloist, a tutti of the bars in this order, four bars of the soloist. */
export function buildTutti({ order, key = 0 }: TuttiText): Score {
  const tutti = order.map((place) => ({
    solo: "R",
    ...(tuttiBars[place % tuttiBars.length] as (typeof tuttiBars)[number]),
  }));
  const bars = [...after.slice(0, 1), ...tutti, ...after];
  const line = (name: "solo" | "right" | "left") => bars.map((bar) => bar[name]).join(" | ");
  return buildScore({ tempo: 96, key, solo: line("solo"), piano: [line("right"), line("left")] });
}

const places = tuttiBars.map((_, place) => place);

/** Tuttis of 16 to 24 bars, in which bars may come again. */
export const arbitraryTutti: fc.Arbitrary<TuttiText> = fc.record({
  order: fc.array(fc.constantFrom(...places), { minLength: 16, maxLength: 24 }),
  key: fc.integer({ min: -3, max: 3 }),
});

/** A tutti of different bars, of which eight in a row come twice. */
export const tuttiWithRepeat: fc.Arbitrary<{ readonly order: readonly number[]; readonly repeatAt: number }> =
  fc
    .tuple(fc.shuffledSubarray(places, { minLength: places.length, maxLength: places.length }), fc.nat(3))
    .map(([all, shift]) => {
      const before = 2 + shift;
      const repeated = all.slice(before, before + 8);
      return {
        order: [...all.slice(0, before), ...repeated, ...repeated, ...all.slice(before + 8)],
        repeatAt: before,
      };
    });
