import fc from "fast-check";
import { type CutTerms, toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import { sharesMusic } from "@/lib/edition/pair-cuts";
import { type PositionTerms, toPositionTerms } from "@/lib/edition/position-terms";
import { quarters } from "@/lib/score/quarters";

/** Two files, the first more often. */
const sources = [
  hashText("a source"),
  hashText("a source"),
  hashText("a source"),
  hashText("another"),
] as const;

const place: fc.Arbitrary<PositionTerms> = fc
  .record({
    barIndex: fc.nat(12),
    offset: fc.constantFrom(quarters(0), quarters(0), quarters(3, 2), quarters(1, 3)),
  })
  .map(toPositionTerms);

const partId = fc.constantFrom("P1", "P2", "P3", "é", "e\u0301x", "constructor");

const cutPlaces = fc.array(
  fc.tuple(fc.nat(12), fc.integer({ min: 1, max: 4 }), fc.constantFrom(quarters(0), quarters(1, 2))),
  {
    maxLength: 5,
  },
);

function makeCuts(
  sourceHash: string,
  places: readonly (readonly [number, number, ReturnType<typeof quarters>])[],
) {
  const cuts: CutTerms[] = [];
  for (const [barIndex, length, offset] of places) {
    const span = { from: { barIndex, offset }, to: { barIndex: barIndex + length, offset } };
    const cut = toCutTerms(span, sourceHash);
    if (!cuts.some((other) => sharesMusic(other, cut))) cuts.push(cut);
  }
  return cuts;
}

/**
 * Contents that pass the schema, with cuts that do not overlap, in any order; tempi and timings in any order and some
 * twice at a place. Few places, so that two editions share some of what they decide.
 */
export const arbitraryEdition: fc.Arbitrary<EditionContent> = fc
  .record({
    sourceHash: fc.constantFrom(...sources),
    partRoles: fc.dictionary(partId, fc.constantFrom("solo", "reduction", "orchestra", "other"), {
      maxKeys: 3,
    }),
    cuts: cutPlaces,
    tempi: fc.array(fc.record({ at: place, quartersPerMinute: fc.constantFrom(60, 72.5, 120) }), {
      maxLength: 3,
    }),
    timings: fc.array(fc.record({ from: place, to: place, seconds: fc.constantFrom(10, 12.25) }), {
      maxLength: 2,
    }),
    ritardandoTo: fc.constantFrom(0.75, 0.5),
    fermataFactor: fc.constantFrom(1.75, 2),
  })
  .map(({ sourceHash, partRoles, cuts, ...tempo }) => ({
    ...{ ...noMarks, schema: 2 as const, sourceHash, partRoles, tempo },
    cuts: makeCuts(sourceHash, cuts),
  }));
