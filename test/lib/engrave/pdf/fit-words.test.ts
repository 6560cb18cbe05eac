import { describe, expect, it } from "vitest";
import { fitWords } from "@/lib/engrave/pdf/fit-words";
import type { PictureSign, PictureTexts } from "@/lib/engrave/picture/picture-words";

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
const place = (
  words: PictureTexts["words"],
  signs: readonly PictureSign[] = [],
  lines: readonly PictureSign[] = [],
  notes: readonly PictureSign[] = [],
) => arrange({ words, signs, lines, notes, width: 10_000, height: 3600, staves });

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

  it("moves words away from a slur that goes through them, not aside, and leaves them under its arch", () => {
    const slur = { left: 600, right: 1000, top: 1700, bottom: 1760 };
    const [over] = place([said("dir", "sul A.", 500, 1800)], [], [slur]).moves;
    expect(over).toEqual({ x: 0, y: -0.5 * size });
    const arch = { ...slur, top: 1300, bottom: 1360 };
    expect(place([said("dir", "sul A.", 500, 1800)], [], [arch]).moves).toEqual([{ x: 0, y: 0 }]);
    const under = { ...slur, top: 3000, bottom: 3060 };
    expect(place([said("dir", "dolce", 500, 3100)], [], [under]).moves).toEqual([{ x: 0, y: 0.75 * size }]);
    // Between two staves there is other music.
    const between = { ...slur, top: 2300, bottom: 2360 };
    expect(place([said("dir", "dolce", 500, 2400)], [], [between]).moves).toEqual([{ x: 0, y: 0 }]);
  });

  it("keeps words over the staff off its top line", () => {
    // What hangs under the baseline is 88 high.
    expect(place([said("dir", "together.", 500, 1950)]).moves).toEqual([{ x: 0, y: -78 }]);
    expect(place([said("dir", "together.", 500, 2500)]).moves).toEqual([{ x: 0, y: 0 }]);
  });

  it("lets a number end before the letter that would cover it, and words keep clear of both", () => {
    const letter = said("reh", "F", 1000, 1600);
    const { moves } = place([said("mNum", "96", 900, 1700), letter, said("dir", "Vi–", 300, 1750)]);
    // The letter's box begins 140 before its text, the number is 400 wide.
    expect(moves.slice(0, 2)).toEqual([
      { x: 1000 - 140 - 70 - 1300, y: 0 },
      { x: 0, y: 0 },
    ]);
    expect(moves[2]?.y).toBeLessThan(0);
    expect(place([said("mNum", "96", 300, 1700), letter]).moves[0]).toEqual({ x: 0, y: 0 });
    expect(place([said("mNum", "96", 200, 1700), said("reh", "F", 500, 1600)]).moves[0]?.x).toBe(-200);
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
    const below = [said("dir", "molto espr.", 500, 3300), said("dir", "ritardando", 700, 3300)];
    expect(place(below).fall).toBe(3300 + size + 88 + 60 - 3600);
  });

  it("lifts the words of a cut, which are set larger, over the notes", () => {
    const note = { left: 600, right: 900, top: 1700, bottom: 1900 };
    const notes = [note];
    expect(place([said("dir", "Vi–", 500, 1850)], [], [], notes).moves).toEqual([{ x: 0, y: -300 }]);
    const near = [{ ...note, top: 1825 }];
    expect(place([said("dir", "Vi–", 500, 1850)], [], [], near).moves[0]?.y).toBeLessThan(0);
    expect(place([said("dir", "rit.", 500, 1850)], [], [], near).moves).toEqual([{ x: 0, y: 0 }]);
    const fingered = [said("fing", "4", 700, 1850), said("dir", "–de", 500, 1850)];
    expect(place(fingered).moves[1]?.y).toBeLessThan(-size / 2);
  });

  it("lifts the players' own words too, which are set in a face of their own", () => {
    const note = { left: 600, right: 900, top: 1700, bottom: 1900 };
    const remark = said("dir", "wait", 500, 1850);
    const own = { ...remark, markup: remark.markup.replace("<tspan", '<tspan font-family="serif"') };
    expect(place([own], [], [], [note]).moves).toEqual([{ x: 0, y: -300 }]);
    expect(place([remark], [], [], [{ ...note, top: 1825 }]).moves).toEqual([{ x: 0, y: 0 }]);
  });

  it("gives the words of a cut and names of instruments their place before other words", () => {
    const words = [said("dir", "together now", 500, 1800), said("dir", "Vi–", 900, 1800)];
    const [remark, cut] = place(words).moves;
    expect(cut).toEqual({ x: 0, y: 0 });
    expect(remark?.y).toBeLessThan(0);
    const name = said("dir", "Pf.", 900, 1800);
    const own = { ...name, markup: name.markup.replace("<tspan", '<tspan font-family="sans-serif"') };
    expect(place([words[0] ?? name, own]).moves[1]).toEqual({ x: 0, y: 0 });
  });

  it("brings a name that stands over a remark down to the notes, and lifts the remark over it", () => {
    const sans = (text: string, x: number, y: number) => {
      const name = said("dir", text, x, y);
      return { ...name, markup: name.markup.replace("<tspan", '<tspan font-family="sans-serif"') };
    };
    const remark = said("dir", "together now", 500, 1800);
    expect(place([remark, sans("Pf.", 900, 1400)]).moves).toEqual([
      { x: 0, y: -size },
      { x: 0, y: 400 },
    ]);
    // Not on to a note, and not for words beside it, nor over the staff of another.
    const note = { left: 900, right: 1300, top: 1700, bottom: 1900 };
    const [, over] = place([remark, sans("Pf.", 900, 1400)], [], [], [note]).moves;
    expect(over).toEqual({ x: 0, y: 200 });
    expect(place([remark, sans("Pf.", 4000, 1400)]).moves[1]).toEqual({ x: 0, y: 0 });
    expect(place([said("dir", "dolce", 900, 3000), sans("Pf.", 900, 1400)]).moves[1]).toEqual({ x: 0, y: 0 });
  });

  it("brings the words of a cut that stand over a remark down to their bar line", () => {
    const remark = said("dir", "together now", 500, 1800);
    for (const word of ["Vi–", "–de"])
      expect(place([remark, said("dir", word, 900, 1000)]).moves).toEqual([
        { x: 0, y: -size },
        { x: 0, y: 800 },
      ]);
  });

  it("lifts other words off a note that their letters cover, not off one that they come near", () => {
    const note = (left: number, top: number) => ({ left, right: left + 250, top, bottom: top + 200 });
    // Ten signs are 2000 wide: the last of them is on the stem.
    const words = [said("tempo", "Recitativo", 500, 1800)];
    expect(place(words, [], [], [note(2450, 1600)]).moves[0]?.y).toBeLessThan(0);
    expect(place(words, [], [], [note(2510, 1600)]).moves).toEqual([{ x: 0, y: 0 }]);
    expect(place(words, [], [], [note(1000, 1785)]).moves).toEqual([{ x: 0, y: 0 }]);
  });

  it("lifts a metronome mark off a note that its own note would touch", () => {
    const tempo = said("tempo", "a tempo", 500, 1800);
    const sign = '<tspan font-family="Leipzig" font-size="720px">\ueca5</tspan>';
    const marked = { ...tempo, markup: tempo.markup.replace("</text>", `${sign}</text>`) };
    // The words are 1400 wide, what hangs under the baseline is 158 high.
    const note = { left: 2000, right: 2250, top: 1930, bottom: 2100 };
    expect(place([marked], [], [], [note]).moves).toEqual([{ x: 0, y: -180 }]);
    expect(place([marked], [], [], [{ ...note, top: 1960 }]).moves).toEqual([{ x: 0, y: 0 }]);
    expect(place([tempo], [], [], [note]).moves).toEqual([{ x: 0, y: 0 }]);
    const between = { ...marked, shift: { x: 0, y: 750 } };
    const under = { ...note, top: 2680, bottom: 2850 };
    expect(place([between], [], [], [under]).moves).toEqual([{ x: 0, y: 0 }]);
  });

  it("lifts a number over the high note that follows it", () => {
    const note = { left: 650, right: 900, top: 1500, bottom: 1750 };
    const [move] = place([said("mNum", "67", 500, 1700)], [], [], [note]).moves;
    expect(move?.x).toBe(0);
    expect(1700 + (move?.y ?? 0)).toBeLessThan(1500);
    expect(place([said("mNum", "67", 100, 1700)], [], [], [note]).moves).toEqual([{ x: 0, y: 0 }]);
  });

  it("sets Vi– before a number and a letter at its bar line, however far it goes for them", () => {
    const words = [said("mNum", "96", 3600, 1700), said("dir", "Vi–", 3600, 1700)];
    // It is 600 wide and begins 140 before its place.
    expect(place(words).moves[1]).toEqual({ x: 3600 - 70 - (3600 - 140 + 600), y: 0 });
    const [, other] = place([said("mNum", "96", 3600, 1700), said("dir", "rit", 3500, 1700)]).moves;
    expect(other?.y).not.toBe(0);
  });

  it("tells what words cover, those of loudness too, but for what of their letters rises or falls", () => {
    const { covered } = place([said("dynam", "cresc.", 500, 3400), said("dir", "dolce", 4000, 1800)]);
    const core = (baseline: number) => ({ top: baseline - 0.48 * size, bottom: baseline - 0.04 * size });
    expect(covered).toEqual([
      { left: 500, right: 500 + 3 * size, ...core(3400) },
      { left: 4000, right: 4000 + 2.5 * size, ...core(1800) },
    ]);
  });

  it("moves no word aside on to a note", () => {
    const note = { left: 1700, right: 2000, top: 1600, bottom: 1800 };
    const words = [said("dir", "dolce", 500, 1800), said("dir", "rit.", 1400, 1800)];
    expect(place(words, [], [], [note]).moves[1]?.x).toBe(0);
  });

  describe("between two staves", () => {
    const upper = { left: 0, right: 9000, top: 2000, bottom: 2720 };
    const lower = { left: 0, right: 9000, top: 4400, bottom: 5120 };
    const wide = { top: upper.top, bottom: lower.bottom };
    const inside = (...more: readonly PictureSign[]) =>
      arrange({
        words: [said("dir", "molto espr.", 500, 3600), said("dir", "ritardando", 700, 3600)],
        ...{ signs: [], lines: [], notes: [upper, lower, ...more], width: 10_000, height: 6000 },
        staves: wide,
      }).moves;

    it("moves a word up or down when aside is too far", () => {
      expect(inside()).toEqual([
        { x: 0, y: 0 },
        { x: 0, y: -size },
      ]);
    });

    it("moves none on to another that has its place", () => {
      const note = { left: 500, right: 900, top: 3000, bottom: 3150 };
      const tempo = said("tempo", "= 132", 500, 3350);
      const mark = { ...tempo, markup: tempo.markup.replace("<tspan", '<tspan font-family="Leipzig"') };
      const under = { ...note, top: 3950, bottom: 4350 };
      const { moves } = arrange({
        words: [mark, said("dir", "mosso", 600, 3800)],
        ...{ signs: [], lines: [], notes: [upper, lower, note, under], width: 10_000, height: 6000 },
        staves: wide,
      });
      expect(moves).toEqual([
        { x: 0, y: 0 },
        { x: 0, y: 0 },
      ]);
    });

    it("keeps it off notes and sung words there, and where nothing is free, lets it stay", () => {
      const note = { left: 1500, right: 1800, top: 2800, bottom: 3300 };
      expect(inside(note)[1]).toEqual({ x: 0, y: size });
      const under = { left: 1500, right: 1800, top: 3700, bottom: 4400 };
      expect(inside(note, under)[1]).toEqual({ x: 0, y: 0 });
    });

    it("sets it behind a short word, further than usual, where nothing is free over and under", () => {
      const over = { left: 400, right: 2600, top: 2800, bottom: 3300 };
      const under = { left: 400, right: 2600, top: 3700, bottom: 4400 };
      const words = [said("dir", "Fl.", 500, 3600), said("dir", "mixed", 500, 3600)];
      const between = (...notes: readonly PictureSign[]) =>
        arrange({ words, signs: [], lines: [], notes, width: 10_000, height: 6000, staves: wide }).moves[1];
      // "Fl." is 600 wide.
      expect(between(upper, lower, over, under)).toEqual({ x: 670, y: 0 });
      expect(between(upper, lower)).toEqual({ x: 0, y: -size });
    });
  });
});
