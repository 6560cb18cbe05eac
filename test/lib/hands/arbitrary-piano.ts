import fc from "fast-check";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { buildScore } from "@/test/builders/build-score";

const letters = ["c", "c#", "d", "eb", "e", "f", "f#", "g", "ab", "a", "bb", "b"];
const nameOf = (midi: number) => `${letters[midi % 12]}${Math.floor(midi / 12) - 1}`;

/** A chord of up to four keys from a low one upwards, or a rest. */
const chordFrom = (lowest: number) =>
  fc
    .uniqueArray(fc.integer({ min: 0, max: 22 }), { maxLength: 4 })
    .map((steps) => (steps.length === 0 ? "r" : steps.map((step) => nameOf(lowest + step)).join("+")));

/** Three bars for two hands, each bar in one even value, so that both are fast and slow somewhere. */
const piano = fc.array(
  fc.constantFrom("e:8", "s:16", "q:4", "t:32").chain((value) => {
    const [letter = "q", count = "4"] = value.split(":");
    const line = (lowest: number) =>
      fc
        .array(chordFrom(lowest), { minLength: Number(count), maxLength: Number(count) })
        .map((chords) => chords.map((chord) => `${chord}:${letter}`).join(" "));
    return fc.tuple(line(60), line(38));
  }),
  { minLength: 3, maxLength: 3 },
);

/** Few bars of chords for two hands, at 96 quarters a minute. */
export const arbitraryPiano = piano.map((bars) =>
  buildScore({
    metre: "4/4",
    tempo: 96,
    solo: "R | R | R",
    piano: [bars.map(([right]) => right).join(" | "), bars.map(([, left]) => left).join(" | ")],
  }),
);

/** Hands of many sizes. */
export const arbitraryHands: fc.Arbitrary<HandsProfile> = fc
  .record({
    left: fc.tuple(fc.integer({ min: 9, max: 17 }), fc.integer({ min: 0, max: 4 })),
    right: fc.tuple(fc.integer({ min: 9, max: 17 }), fc.integer({ min: 0, max: 4 })),
    repeatedNotes: fc.double({ min: 3, max: 12, noNaN: true }),
    repeatedChords: fc.double({ min: 3, max: 9, noNaN: true }),
    octavesInARow: fc.double({ min: 3, max: 9, noNaN: true }),
    runs: fc.double({ min: 5, max: 14, noNaN: true }),
    leaps: fc.double({ min: 0.6, max: 1.6, noNaN: true }),
  })
  .map(({ left, right, ...rest }) => ({
    schema: 1,
    left: { comfortable: left[0], possible: left[0] + left[1] },
    right: { comfortable: right[0], possible: right[0] + right[1] },
    ...rest,
  }));
