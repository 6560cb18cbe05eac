import { describe, expect, it } from "vitest";
import { ChordSuccessions } from "@/lib/cuts/join/chord-successions";
import { type Chord, chordNumber } from "@/lib/harmony/chord-shapes";

const chord = (root: number, quality: Chord["quality"] = "major") => chordNumber({ root, quality });
const [c, f, g, d] = [chord(0), chord(5), chord(7), chord(2)];
/** Fifths down, here and there a step up: no matter on which degree. */
const piece = new ChordSuccessions([
  { before: g, after: c },
  { before: d, after: g },
  { before: c, after: f },
  { before: g, after: c },
  { before: f, after: g },
]);

describe("ChordSuccessions", () => {
  it("counts a succession on whatever degree", () => {
    expect(piece.countOf(g, c)).toBe(4);
    expect(piece.countOf(chord(11), chord(4))).toBe(4);
    expect(piece.countOf(f, g)).toBe(1);
    expect(piece.countOf(c, g)).toBe(0);
  });

  it("holds what is made often for nearer than what is made by chance", () => {
    expect(piece.association(g, c, -1)).toBeGreaterThan(0);
    expect(piece.association(g, c, -1)).toBeGreaterThan(piece.association(c, g, -1));
  });

  it("does not let a place speak for itself", () => {
    const [withItself, without] = [piece.association(f, g, -1), piece.association(f, g, g)];
    expect(without).toBeLessThan(withItself);
    expect(piece.association(f, g, c)).toBe(withItself);
  });

  it("has nothing to say of silence", () => {
    expect(piece.association(-1, c, -1)).toBe(0);
    expect(piece.countOf(c, -1)).toBe(0);
  });
});
