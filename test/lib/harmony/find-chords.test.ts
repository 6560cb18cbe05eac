import { describe, expect, it } from "vitest";
import { functionOf } from "@/lib/harmony/chord-in-key";
import { allChords, type Chord, type ChordQuality, chordNumber, tonesOf } from "@/lib/harmony/chord-shapes";
import { findChords, type LocalChord } from "@/lib/harmony/find-chords";
import { findLocalKeys } from "@/lib/harmony/find-local-keys";
import { buildScore, type ScoreText } from "../../builders/build-score";

const names = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

function chordsOf(text: ScoreText): LocalChord[] {
  const score = buildScore(text);
  return findChords(score, findLocalKeys(score));
}

const say = ({ root, quality, inversion }: LocalChord) => `${names[root]} ${quality} ${inversion}`;

describe("chords", () => {
  it.each([
    ["c4+e4+g4", "C major 0"],
    ["e4+g4+c5", "C major 1"],
    ["g3+c4+e4", "C major 2"],
    ["a3+c4+e4", "A minor 0"],
    ["g3+b3+d4+f4", "G dominant-seventh 0"],
    ["f3+g3+b3+d4", "G dominant-seventh 3"],
    ["b3+d4+f4+a4", "B half-diminished 0"],
    ["g#3+b3+d4+f4", "Ab diminished-seventh 0"],
    ["d4+f4+a4+c5", "D minor-seventh 0"],
    ["f3+a3+c4+e4", "F major-seventh 0"],
    ["e3+g#3+b3", "E major 0"],
    ["c4+e4+g#4", "C augmented 0"],
  ])("%s among chords of C major is %s", (chord, expected) => {
    const frame = "c4+e4+g4:w | f4+a4+c5:w | g4+b4+d5:w | c4+e4+g4:w";
    const chords = chordsOf({ piano: `${frame} | ${chord}:w | ${frame}` });
    expect(chords.slice(16, 20).map(say)).toEqual(Array(4).fill(expected));
  });

  it("are heard in broken figures, beat by beat", () => {
    const chords = chordsOf({
      metre: "2/4",
      piano: "c4:s g4 e4 g4 c4 g4 e4 g4 | d4 b4 f4 b4 g3 d4 b3 f4 | c4:h",
    });
    expect(chords.map(({ root }) => names[root])).toEqual(["C", "C", "G", "G", "C", "C"]);
  });

  it("name the notes that do not belong and the tones that lack", () => {
    const score = buildScore({ metre: "2/4", solo: "d5:e c5:e~ c5:q", piano: "c3+g3:h" });
    const [chord] = findChords(score, findLocalKeys(score));
    expect(chord).toMatchObject({ root: 0, bass: 0, inversion: 0, at: { barIndex: 0 } });
    expect(chord?.evidence.foreignNoteIds).toEqual([score.parts[0]?.notes[0]?.id]);
    expect(chord?.evidence.missing).toContain(4);
    expect(chord?.evidence.margin).toBeGreaterThanOrEqual(0);
  });

  it("are none where nothing sounds", () => {
    expect(chordsOf({ piano: "c4+e4+g4:w | R | c4+e4+g4:w" }).map(({ at }) => at.barIndex)).toEqual([
      0, 0, 0, 0, 2, 2, 2, 2,
    ]);
    expect(chordsOf({ piano: "" })).toEqual([]);
  });

  it("stand in the key that is given", () => {
    const chords = chordsOf({ piano: "c4+e4+g4:w | f4+a4+c5:w | g4+b4+d5+f5:w | c4+e4+g4:w" });
    expect(
      chords.filter(({ at }) => at.offset.num === 0).map((chord) => [chord.degree, chord.function]),
    ).toEqual([
      [0, "tonic"],
      [5, "diatonic"],
      [7, "dominant"],
      [0, "tonic"],
    ]);
  });
});

describe("what a chord is to a key", () => {
  const inC = { tonic: 0, mode: "major" } as const;
  const inA = { tonic: 9, mode: "minor" } as const;
  const chord = (root: number, quality: ChordQuality): Chord => ({ root, quality });

  it.each([
    [chord(0, "major"), inC, "tonic"],
    [chord(7, "dominant-seventh"), inC, "dominant"],
    [chord(11, "diminished"), inC, "leading"],
    [chord(2, "minor-seventh"), inC, "diatonic"],
    [chord(2, "dominant-seventh"), inC, "applied"],
    [chord(6, "diminished-seventh"), inC, "applied"],
    [chord(5, "minor"), inC, "borrowed"],
    [chord(8, "dominant-seventh"), inC, "borrowed"],
    [chord(1, "major"), inC, "borrowed"],
    [chord(6, "minor"), inC, "foreign"],
    [chord(9, "minor"), inA, "tonic"],
    [chord(4, "major"), inA, "dominant"],
    [chord(8, "diminished-seventh"), inA, "leading"],
    [chord(7, "major"), inA, "natural-minor"],
    [chord(10, "major"), inA, "borrowed"],
  ] as const)("%o in %o: %s", (of, key, expected) => {
    expect(functionOf(of, key)).toBe(expected);
  });
});

describe("the list of chords", () => {
  it("numbers every chord by its place, and no two shapes on one root sound the same", () => {
    expect(allChords.map(chordNumber)).toEqual([...allChords.keys()]);
    const sounds = allChords.map((chord) => `${chord.root}: ${tonesOf(chord).sort().join()}`);
    expect(new Set(sounds).size).toBe(allChords.length);
  });
});
