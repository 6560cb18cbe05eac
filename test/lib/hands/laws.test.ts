import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo, comfortablePace } from "@/lib/hands/at-tempo";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { arbitraryReduction } from "@/test/builders/arbitrary-reduction";
import { arbitraryHands, arbitraryPiano } from "./arbitrary-piano";

const demandsOf = (of: Score, profile: HandsProfile) => assessHands(of, readTempoMap(of), profile).bars;
const loadsOf = (of: Score, profile: HandsProfile, pace = 1) =>
  demandsOf(of, profile).map((bar) => barAtTempo(bar, pace).easiest?.load ?? 0);

const slack = 1e-9;

/** Even chords, fast and slow, and everything that reductions are printed with. */
const music = fc.oneof(arbitraryPiano, arbitraryReduction);

describe("laws", () => {
  test("faster is never easier", () => {
    fc.assert(
      fc.property(
        music,
        arbitraryHands,
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (of, profile, pace, more) => {
          for (const bar of demandsOf(of, profile)) {
            const [slow, fast] = [barAtTempo(bar, pace), barAtTempo(bar, pace * more)];
            expect(fast.difficulty).toBeGreaterThanOrEqual(slow.difficulty);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  test("a hand that reaches farther or plays faster is never worse off", () => {
    fc.assert(
      fc.property(
        music,
        arbitraryHands,
        fc.integer({ min: 0, max: 3 }),
        fc.integer({ min: 0, max: 3 }),
        (of, profile, more, further) => {
          const grow = ({ comfortable, possible }: HandsProfile["left"]) => ({
            comfortable: comfortable + Math.min(more, possible - comfortable + further),
            possible: possible + further,
          });
          const larger = { ...profile, left: grow(profile.left), right: grow(profile.right) };
          const before = loadsOf(of, profile);
          for (const [index, load] of loadsOf(of, larger).entries())
            expect(load).toBeLessThanOrEqual((before[index] ?? 0) + slack);
          const quicker = {
            ...profile,
            repeatedNotes: profile.repeatedNotes + 1,
            repeatedChords: profile.repeatedChords + 1,
            octavesInARow: profile.octavesInARow + 1,
            runs: profile.runs + 1,
            leaps: profile.leaps * 0.9,
          };
          for (const [index, load] of loadsOf(of, quicker).entries())
            expect(load).toBeLessThanOrEqual((before[index] ?? 0) + slack);
        },
      ),
      { numRuns: 40 },
    );
  });

  test("leaving a note out never makes its bar harder", () => {
    fc.assert(
      fc.property(
        music,
        arbitraryHands,
        fc.nat(),
        fc.double({ min: 0.4, max: 2, noNaN: true }),
        (of, profile, choice, pace) => {
          const notes = of.parts.find(({ role }) => role === "reduction")?.notes ?? [];
          const note = notes[choice % Math.max(1, notes.length)];
          fc.pre(note !== undefined);
          const without: Score = {
            ...of,
            parts: of.parts.map((part) => ({ ...part, notes: part.notes.filter((other) => other !== note) })),
          };
          const bar = note?.barIndex ?? 0;
          const [before, after] = [
            loadsOf(of, profile, pace)[bar] ?? 0,
            loadsOf(without, profile, pace)[bar] ?? 0,
          ];
          expect(after).toBeLessThanOrEqual(before + slack);
        },
      ),
      { numRuns: 80 },
    );
  });

  test("an octave higher is the same for both hands", () => {
    fc.assert(
      fc.property(music, arbitraryHands, (of, profile) => {
        const higher: Score = {
          ...of,
          parts: of.parts.map((part) => ({
            ...part,
            notes: part.notes.map((note) => ({
              ...note,
              sounding: note.sounding && { ...note.sounding, octave: note.sounding.octave + 1 },
            })),
          })),
        };
        expect(loadsOf(higher, profile)).toEqual(loadsOf(of, profile));
      }),
      { numRuns: 40 },
    );
  });

  test("a bar is comfortable exactly up to the tempo that is told", () => {
    fc.assert(
      fc.property(music, arbitraryHands, (of, profile) => {
        for (const bar of demandsOf(of, profile)) {
          const pace = comfortablePace(bar);
          if (pace === 0) expect(barAtTempo(bar, 0.001).verdict).not.toBe("easy");
          else if (Number.isFinite(pace)) {
            expect(barAtTempo(bar, pace * 0.999).verdict).toBe("easy");
            expect(barAtTempo(bar, pace * 1.001).verdict).not.toBe("easy");
          }
        }
      }),
      { numRuns: 40 },
    );
  });
});
