import * as fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { midiNumber, type Pitch, type Step } from "@/lib/score/pitch";
import { atPitch, soundingPitch } from "@/lib/score/transposition";

const pitch = (step: Step, alter: number, octave: number): Pitch => ({ step, alter, octave });

describe("midiNumber", () => {
  // MIDI 1.0: note number 60 is middle C; the 88 keys of the piano run from 21 to 108.
  test.each([
    [pitch("C", 0, 4), 60],
    [pitch("A", 0, 0), 21],
    [pitch("C", 0, 8), 108],
    [pitch("B", 1, 3), 60],
    [pitch("C", -1, 4), 59],
  ])("%o is %i", (given, expected) => expect(midiNumber(given)).toBe(expected));
});

describe("soundingPitch", () => {
  // Written C5 on each instrument (MusicXML 4.0, `transpose`; intervals as in every orchestration table).
  test.each([
    ["clarinet in B flat", { diatonic: -1, chromatic: -2, octaveChange: 0 }, pitch("B", -1, 4)],
    ["clarinet in A", { diatonic: -2, chromatic: -3, octaveChange: 0 }, pitch("A", 0, 4)],
    ["horn in F", { diatonic: -4, chromatic: -7, octaveChange: 0 }, pitch("F", 0, 4)],
    ["piccolo", { diatonic: 0, chromatic: 0, octaveChange: 1 }, pitch("C", 0, 6)],
    ["double bass", { diatonic: 0, chromatic: 0, octaveChange: -1 }, pitch("C", 0, 4)],
    ["clarinet in E flat", { diatonic: 2, chromatic: 3, octaveChange: 0 }, pitch("E", -1, 5)],
  ])("%s", (_, by, expected) => expect(soundingPitch(pitch("C", 0, 5), by)).toEqual(expected));

  it("moves every pitch by exactly the chromatic interval, whatever the spelling", () => {
    const steps = fc.constantFrom<Step>("A", "B", "C", "D", "E", "F", "G");
    const written = fc.tuple(steps, fc.integer({ min: -2, max: 2 }), fc.integer({ min: 1, max: 7 }));
    fc.assert(
      fc.property(
        written,
        fc.integer({ min: -7, max: 7 }),
        fc.integer({ min: -12, max: 12 }),
        ([s, a, o], diatonic, chromatic) => {
          const given = pitch(s, a, o);
          const heard = soundingPitch(given, { diatonic, chromatic, octaveChange: 0 });
          expect(midiNumber(heard) - midiNumber(given)).toBe(chromatic + 0);
        },
      ),
    );
  });

  it("leaves a part at pitch alone", () => {
    expect(soundingPitch(pitch("F", 1, 3), atPitch)).toEqual(pitch("F", 1, 3));
  });
});
