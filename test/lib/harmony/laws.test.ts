import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Chord } from "@/lib/harmony/chord-shapes";
import { findCadences } from "@/lib/harmony/find-cadences";
import { findChords } from "@/lib/harmony/find-chords";
import { findHypermetre } from "@/lib/harmony/find-hypermetre";
import { findLines } from "@/lib/harmony/find-lines";
import { findLocalKeys } from "@/lib/harmony/find-local-keys";
import { findParallels } from "@/lib/harmony/find-parallels";
import { findPhrases } from "@/lib/harmony/find-phrases";
import { findTexture } from "@/lib/harmony/find-texture";
import { quarterNote } from "@/lib/harmony/frames";
import type { Key } from "@/lib/harmony/key";
import { readScore } from "@/lib/musicxml/read-score";
import { type Quarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { arbitraryScore } from "../../builders/arbitrary-score";
import { buildScore } from "../../builders/build-score";
import { encode, sourceOf } from "../musicxml/music-source";
import { doubleValues, renumberBars, transposeScore } from "./change-score";

function analyse(score: Score, step: Quarters = quarterNote) {
  const keys = findLocalKeys(score, { step });
  const chords = findChords(score, keys);
  const cadences = findCadences(score, chords);
  const phrases = findPhrases(score, cadences);
  return {
    keys,
    chords,
    cadences,
    phrases,
    groups: findHypermetre(score, phrases, 4),
    lines: findLines(score),
    texture: findTexture(score),
    parallels: findParallels(score),
  };
}

/** Four-part harmony in several keys, a line over it, an upbeat: tonal enough to have something to find. */
const bar = fc.constantFrom(
  { solo: "c5:q d5 e5 g5", piano: "c3+g3+e4:h f3+a3+c4" },
  { solo: "d5:q. c5:e b4:h", piano: "g3+b3+d4:h g2+b3+f4" },
  { solo: "c5:h. r:q", piano: "c3+e4+g4:w" },
  { solo: "r:q a4 c#5 e5", piano: "a2+g3+c#4:h a3+e4" },
  { solo: "d5:e f5 a5 f5 d5:h", piano: "d3+a3+f4:w" },
  { solo: "f#5:q g5 a5:h", piano: "d3+c4+f#4:h g2+b3+g4" },
  { solo: "eb5:h c5", piano: "ab2+c4+eb4:h g2+b3+d4" },
  { solo: "R", piano: "c4:e3 e4 g4 c5 g4 e4 f4:q d4" },
  { solo: "p b4:q < c5 / d5:h", piano: "R" },
);
const tonalScore = fc
  .tuple(fc.array(bar, { minLength: 1, maxLength: 10 }), fc.integer({ min: -4, max: 4 }), fc.boolean())
  .map(([bars, key, hasUpbeat]) => {
    const upbeat = hasUpbeat ? [{ solo: "g4:q", piano: "r:q" }] : [];
    const all = [...upbeat, ...bars];
    const join = (part: "solo" | "piano") => all.map((one) => one[part]).join(" | ");
    return buildScore({ key, solo: join("solo"), piano: join("piano") });
  });

const intervals = fc.constantFrom(
  { diatonic: 1, chromatic: 1, octaveChange: 0 },
  { diatonic: 1, chromatic: 2, octaveChange: 0 },
  { diatonic: -2, chromatic: -3, octaveChange: 0 },
  { diatonic: 3, chromatic: 6, octaveChange: 0 },
  { diatonic: -3, chromatic: -5, octaveChange: 1 },
  { diatonic: 0, chromatic: 1, octaveChange: 0 },
);
const runs = { numRuns: 15 };

describe("transposing the music", () => {
  it("transposes keys, chords, cadences and lines, and leaves the rest alone", () => {
    fc.assert(
      fc.property(tonalScore, intervals, (score, by) => {
        const semitones = by.chromatic + 12 * by.octaveChange;
        const up = (pitchClass: number) => (pitchClass + semitones + 24) % 12;
        const upKey = ({ tonic, mode }: Key) => ({ tonic: up(tonic), mode });
        const upChord = ({ root, quality }: Chord) => ({ root: up(root), quality });
        const [before, after] = [analyse(score), analyse(transposeScore(score, by))];

        expect(
          after.keys.map(({ tonic, mode, at, tonicFifths }) => ({ tonic, mode, at, tonicFifths })),
        ).toEqual(
          before.keys.map((key) => ({
            ...upKey(key),
            at: key.at,
            tonicFifths: key.tonicFifths + 7 * by.chromatic - 12 * by.diatonic,
          })),
        );
        expect(after.keys.map(({ evidence }) => evidence.margin)).toEqual(
          before.keys.map(({ evidence }) => evidence.margin),
        );
        expect(
          after.chords.map((chord) => ({ ...upChord(chord), root: chord.root, bass: chord.bass })),
        ).toEqual(before.chords.map((chord) => ({ ...upChord(chord), bass: up(chord.bass) })));
        expect(
          after.chords.map(({ inversion, degree, confidence }) => ({ inversion, degree, confidence })),
        ).toEqual(
          before.chords.map(({ inversion, degree, confidence }) => ({ inversion, degree, confidence })),
        );
        expect(after.cadences.map(({ kind, at, key }) => ({ kind, at, key }))).toEqual(
          before.cadences.map(({ kind, at, key }) => ({ kind, at, key: upKey(key) })),
        );
        expect(after.lines.map(({ bass, top }) => [bass?.midi, top?.midi])).toEqual(
          before.lines.map(({ bass, top }) =>
            [bass && bass.midi + semitones, top && top.midi + semitones].map((m) => m ?? undefined),
          ),
        );
        expect(after.phrases).toEqual(before.phrases);
        expect(after.groups).toEqual(before.groups);
        expect(after.parallels).toEqual(before.parallels);
      }),
      runs,
    );
  });
});

describe("writing the music in notes of twice the value", () => {
  it("doubles positions and changes nothing else", () => {
    const double = (time: Quarters) => scaleQuarters(time, 2);
    fc.assert(
      fc.property(tonalScore, (score) => {
        const [before, after] = [analyse(score), analyse(doubleValues(score), double(quarterNote))];
        for (const name of ["keys", "chords"] as const) {
          const places = before[name].map(({ at, onset, end }) => ({
            at: { ...at, offset: double(at.offset) },
            onset: double(onset),
            end: double(end),
          }));
          expect(after[name].map(({ at, onset, end }) => ({ at, onset, end }))).toEqual(places);
        }
        expect(after.keys.map(({ evidence }) => evidence)).toEqual(
          before.keys.map(({ evidence }) => evidence),
        );
        expect(after.chords.map(({ evidence }) => evidence)).toEqual(
          before.chords.map(({ evidence }) => evidence),
        );
        expect(after.cadences.map(({ kind, onset }) => ({ kind, onset }))).toEqual(
          before.cadences.map(({ kind, onset }) => ({ kind, onset: double(onset) })),
        );
        expect(after.texture.map(({ onsetsPerQuarter }) => onsetsPerQuarter * 2)).toEqual(
          before.texture.map(({ onsetsPerQuarter }) => onsetsPerQuarter),
        );
        expect(after.phrases).toEqual(before.phrases);
        expect(after.groups).toEqual(before.groups);
        expect(after.parallels).toEqual(before.parallels);
      }),
      runs,
    );
  });
});

describe("what must not matter", () => {
  it("printed bar numbers and ids of bars do not", () => {
    fc.assert(
      fc.property(tonalScore, (score) => {
        expect(analyse(renumberBars(score))).toEqual(analyse(score));
      }),
      runs,
    );
  });

  it("the order of parts and the names of voices do not, but for the order in which parts are named", () => {
    fc.assert(
      fc.property(tonalScore, (score) => {
        const parts = score.parts.toReversed().map((part) => {
          return { ...part, notes: part.notes.map((note) => ({ ...note, voice: `v${note.voice}` })) };
        });
        const [before, after] = [analyse(score), analyse({ ...score, parts })];
        expect(after.keys).toEqual(before.keys);
        expect(after.chords.map(({ root, quality }) => ({ root, quality }))).toEqual(
          before.chords.map(({ root, quality }) => ({ root, quality })),
        );
        expect(after.parallels).toEqual(before.parallels);
        expect(after.phrases.map(({ likelihood }) => likelihood)).toEqual(
          before.phrases.map(({ likelihood }) => likelihood),
        );
      }),
      runs,
    );
  });

  it("the divisions that a file counts in do not", () => {
    const tones = ["C5", "E5", "G5", "E5", "D5", "F5", "B4", "D5", "C5", "E5", "G5", "C6"];
    const written = (divisions: number) => {
      const note = (tone: string) =>
        `<note><pitch><step>${tone[0]}</step><octave>${tone[1]}</octave></pitch><duration>${divisions}</duration><voice>1</voice></note>`;
      const attributes = `<attributes><divisions>${divisions}</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>`;
      const measures = [0, 4, 8].map((from) =>
        tones
          .slice(from, from + 4)
          .map(note)
          .join(""),
      );
      const read = readScore(
        encode(sourceOf({ measures: [attributes + measures[0], measures[1]!, measures[2]!] })),
      );
      if (!read.ok) throw new Error(read.problem.kind);
      return read.value.score;
    };
    expect(analyse(written(480))).toEqual(analyse(written(1)));
    expect(analyse(written(7))).toEqual(analyse(written(1)));
  });
});

describe("every score, whatever it says", () => {
  it("has frames that tile it, likelihoods between 0 and 1, and figures that are numbers", () => {
    fc.assert(
      fc.property(arbitraryScore, (score) => {
        const { keys, chords, phrases, groups, texture } = analyse(score);
        for (const [index, key] of keys.entries()) {
          expect(key.evidence.margin).toBeGreaterThanOrEqual(0);
          if (index > 0) expect(key.onset).toEqual(keys[index - 1]?.end);
        }
        for (const { evidence } of chords) expect(evidence.margin).toBeGreaterThanOrEqual(0);
        for (const { likelihood } of phrases) {
          expect(likelihood).toBeGreaterThan(0);
          expect(likelihood).toBeLessThan(1);
        }
        for (const [index, group] of groups.groups.entries()) {
          if (index > 0) expect(group.from).toBe(groups.groups[index - 1]?.to);
        }
        for (const { register } of texture) {
          if (!register) continue;
          expect(register.centroid).toBeGreaterThanOrEqual(register.lowest);
          expect(register.centroid).toBeLessThanOrEqual(register.highest);
        }
      }),
      { numRuns: 25, endOnFailure: true },
    );
  });
});
