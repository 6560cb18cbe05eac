import fc from "fast-check";
import { type CutTerms, toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import { sharesMusic } from "@/lib/edition/pair-cuts";
import { sharesBars } from "@/lib/edition/pair-marks";
import { type PositionTerms, toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import type { RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { comparePositions } from "@/lib/score/position";
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

/** The same letters in two spellings among them. */
const someText = fc.constantFrom("Fl.", "Ob. solo", "Caf\u00e9", "Cafe\u0301", "\u{1D11E}");

const span = fc
  .tuple(place, place)
  .map((ends) => ends.toSorted((a, b) => comparePositions(toPosition(a), toPosition(b))) as typeof ends);

const bars = fc.tuple(fc.nat(12), fc.integer({ min: 1, max: 3 }));
const shown = fc.constantFrom<RewriteTerms["shown"][]>("ossia", "in place");
const pitch = fc.record({
  step: fc.constantFrom<RewritePitch["step"][]>("C", "G", "B"),
  alter: fc.integer({ min: -1, max: 1 }),
  octave: fc.integer({ min: 2, max: 6 }),
});
const events = fc.array(
  fc.record({
    ...{ at: place, lasts: fc.constantFrom("1", "3/2"), staff: fc.constantFrom(1, 2), voice: fc.constant(1) },
    ...{
      pitches: fc.array(pitch, { maxLength: 3 }),
      tied: fc.constantFrom<number[]>([], [0]),
      isRolled: fc.boolean(),
    },
    isAccented: fc.boolean(),
    tremolo: fc.option(fc.record({ strokes: fc.integer({ min: 1, max: 4 }), other: fc.array(pitch) })),
  }),
  { maxLength: 3 },
);

interface Rewriting extends Pick<RewriteTerms, "partId" | "words" | "shown" | "events"> {
  readonly bars: readonly [first: number, count: number];
}

function makeRewrites(sourceHash: string, asked: readonly Rewriting[]): RewriteTerms[] {
  const rewrites: RewriteTerms[] = [];
  for (const {
    bars: [barIndex, count],
    ...rest
  } of asked) {
    const ends = { from: { barIndex, offset: "0" }, to: { barIndex: barIndex + count, offset: "0" } };
    const rewrite: RewriteTerms = { kind: "rewrite", sourceHash, ...rest, ...ends };
    if (!rewrites.some((other) => sharesBars(other, rewrite))) rewrites.push(rewrite);
  }
  return rewrites;
}

/**
 * Contents that pass the schema of either kind, with breaths, cues and remarks of which some are twice the same, rewrites
 * that do not overlap, with cuts that do not overlap, in any order; tempi and timings in any order and some
 * twice at a place. Few places and words, so that two editions share some of what they decide.
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
    schema: fc.constantFrom(1, 2, 2, 2),
    breaths: fc.array(fc.record({ at: place }), { maxLength: 5 }),
    cues: fc.array(fc.record({ at: place, text: someText }), { maxLength: 5 }),
    remarks: fc.array(
      fc.record({ span, text: someText, by: fc.constantFrom("Nerys Quill", "Matthis Orban") }),
      { maxLength: 4 },
    ),
    rewrites: fc.array(fc.record({ bars, partId, words: someText, shown, events }), { maxLength: 4 }),
  })
  .map(({ sourceHash, partRoles, cuts, schema, breaths, cues, remarks, rewrites, ...tempo }) => ({
    ...{ sourceHash, partRoles, tempo, cuts: makeCuts(sourceHash, cuts) },
    ...(schema === 1
      ? { ...noMarks, schema }
      : {
          ...{ schema, breaths, cues },
          remarks: remarks.map(({ span: [from, to], text, by }) => ({ from, to, text, by })),
          rewrites: makeRewrites(sourceHash, rewrites),
        }),
  }));
