import { describe, expect, it } from "vitest";
import { fitWords } from "@/lib/engrave/pdf/fit-words";
import type { PictureSign, PictureTexts } from "@/lib/engrave/picture-words";

/** Every sign is half as wide as it is high. */
const arrange = fitWords({ has: () => true, advance: (_, text) => text.length * 0.5 });
const size = 400;
const staves = { top: 2000, bottom: 2720 };

/** Words of that kind with their baseline's start at a place. */
const said = (kind: string, text: string, x: number, y: number) => ({
  markup: `<text x="${x}" y="${y}"><tspan font-size="${size}px">${text}</tspan></text>`,
  shift: { x: 0, y: 0 },
  ...{ kind, isBold: false, isItalic: false },
});
const place = (words: PictureTexts["words"], signs: readonly PictureSign[] = []) =>
  arrange({ words, signs, width: 10_000, staves });

describe("fitWords", () => {
  it("leaves alone what stands free", () => {
    const { moves, rise } = place([said("dir", "dolce", 500, 1800), said("dir", "rit.", 4000, 1800)]);
    expect(moves).toEqual([
      { x: 0, y: 0 },
      { x: 0, y: 0 },
    ]);
    expect(rise).toBe(0);
  });

  it("moves words at the end of a line back into the picture, and those at its start", () => {
    // Ten signs are 2000 wide.
    expect(place([said("dir", "more bow !", 9000, 1800)]).moves).toEqual([{ x: -1000, y: 0 }]);
    expect(place([said("dir", "rit.", -50, 1800)]).moves).toEqual([{ x: 50, y: 0 }]);
  });

  it("moves a word aside when a little is enough, else a line away from the music", () => {
    const [, little] = place([said("dir", "dolce", 500, 1800), said("dir", "rit.", 1400, 1800)]).moves;
    expect(little).toEqual({ x: 170, y: 0 });
    const [, over] = place([said("dir", "molto espr.", 500, 1800), said("dir", "rit.", 700, 1800)]).moves;
    expect(over).toEqual({ x: 0, y: -size });
    const [, under] = place([said("dir", "molto espr.", 500, 3000), said("dir", "rit.", 700, 3000)]).moves;
    expect(under).toEqual({ x: 0, y: size });
  });

  it("never moves a number, a letter or a sign of loudness", () => {
    for (const kind of ["mNum", "reh", "dynam", "ending"]) {
      const { moves } = place([said("dir", "dolce", 500, 1800), said(kind, "12", 520, 1800)]);
      expect([moves[0]?.y, moves[1]]).toEqual([expect.any(Number), { x: 0, y: 0 }]);
      expect(moves[0]).not.toEqual({ x: 0, y: 0 });
    }
  });

  it("keeps clear of the count over a long rest", () => {
    const count = { left: 600, right: 930, top: 1500, bottom: 1860 };
    const [move] = place([said("dir", "–de", 500, 1800)], [count]).moves;
    expect(move).not.toEqual({ x: 0, y: 0 });
  });

  it("asks for more room where words rise above the picture", () => {
    const words = [said("dir", "molto espr.", 500, 300), said("dir", "ritardando", 700, 300)];
    const { moves, rise } = place(words);
    expect(moves[1]).toEqual({ x: 0, y: -size });
    expect(rise).toBeGreaterThan(350);
  });
});
