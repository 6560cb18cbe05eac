import { describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { countBars } from "@/lib/score/count-bars";
import { findSoloPart } from "@/lib/score/find-part";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { addQuarters, compareQuarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { findSilentSpans } from "@/lib/score/silent-spans";
import { readTempoMap } from "@/lib/score/tempo-map";
import { writtenOrder } from "@/lib/score/written-order";
import { findTuttis } from "@/lib/tutti/find-tuttis";
import { corpusFolder, readCorpusFile } from "./corpus-folder";

// Facts counted by others in these files, as the corpus's own README lists them. They count printed bars, so the
// order is the written one.

function read(file: string): { score: Score; order: PerformedOrder } {
  const source = readScore(readCorpusFile(file));
  if (!source.ok) throw new Error(`${file}: ${source.problem.kind}`);
  return { score: source.value.score, order: writtenOrder(source.value.score) };
}

function tuttisOf(file: string): string[] {
  const { score, order } = read(file);
  return findTuttis(score, order, readTempoMap(score)).map((tutti) => {
    return `${tutti.firstBarLabel}–${tutti.lastBarLabel}: ${tutti.barCount} ${tutti.place}`;
  });
}

/** The longest silence of the soloist, in bars as players count them. */
function longestSilence(file: string): number {
  const { score, order } = read(file);
  const solo = findSoloPart(score);
  if (!solo) throw new Error(`${file} has no solo part`);
  return Math.max(
    ...findSilentSpans(score, order, solo).map(({ from, to }) => countBars(score, order, from, to).count),
  );
}

describe.skipIf(corpusFolder === null)("facts counted by others", () => {
  it("Wieniawski, op. 22, first movement: 309 bars, violin silent in 1–67 and 239–309 (71)", () => {
    const file = "solo-piano/wieniawski_op22_1.mxl";
    expect(read(file).score.bars).toHaveLength(309);
    const tuttis = tuttisOf(file);
    expect(tuttis.at(0)).toBe("1–67: 67 opening");
    expect(tuttis.at(-1)).toBe("239–309: 71 closing");
  });

  it("Wieniawski, op. 22, first movement: the reduction prints TUTTI and names of instruments", () => {
    const reduction = read("solo-piano/wieniawski_op22_1.mxl").score.parts.find(
      ({ role }) => role === "reduction",
    );
    const words = (reduction?.directions ?? []).flatMap((direction) =>
      direction.kind === "words" ? [direction.text.trim()] : [],
    );
    expect(words.filter((text) => /^tutti\b/i.test(text)).length).toBeGreaterThan(0);
    expect(
      words.filter((text) => /^(Fl|Ob|Cl|Cor|Fg|Fag|Viol|Vcl?|Tr|Trb|Timp)\b/i.test(text)).length,
    ).toBeGreaterThan(0);
  });

  it("Wieniawski, op. 4: 147 bars, silent 31–56 (26)", () => {
    const file = "solo-piano/wieniawski_op4.mxl";
    expect(read(file).score.bars).toHaveLength(147);
    expect(tuttisOf(file)).toContain("31–56: 26 interlude");
  });

  it.each([
    ["Dobrzyński, aria no. 16", "solo-piano/dobrzynski_monbar_16_aria.mxl", 275, 25],
    ["Bantock, Old Fisherman", "songs/bantock_old_fisherman.mxl", 87, 34],
    ["Lang", "songs/lang_abermals_am_see.mxl", 154, 27],
    ["Haydn, Mermaid's Song", "songs/haydn_mermaids_song.mxl", 129, 21],
    ["Wagner, Träume", "songs/wagner_wesendonck_5_traeume.mxl", 84, 16],
    ["Schumann, Dichterliebe 9", "songs/schumann_dichterliebe_9.mxl", 85, 19],
  ])("%s: %s has %i bars, the longest silence is %i", (_name, file, barCount, silence) => {
    expect(read(file).score.bars).toHaveLength(barCount);
    expect(longestSilence(file)).toBe(silence);
  });

  it("Chopin, op. 11, first movement: Solo from 139, Tutti 333, Solo 385, Tutti 486, Solo 510, Tutti 671", () => {
    const { score, order } = read("pairs/chopin_op11_1_piano_with_tutti_reduction.mxl");
    const label = (barIndex: number) => score.bars[barIndex]?.label;
    const tuttis = findTuttis(score, order, readTempoMap(score));
    expect(tuttis.map(({ from }) => label(from.barIndex))).toEqual(["0", "333", "486", "671"]);
    expect(tuttis.slice(0, 3).map(({ to }) => label(to.barIndex))).toEqual(["139", "385", "510"]);
    expect(tuttis.every(({ evidence }) => evidence.basis === "words")).toBe(true);
  });

  it("the bars of every score follow one another without gap or overlap", () => {
    const { score } = read("solo-piano/mlynarski_op11_1.mxl");
    for (const [index, bar] of score.bars.entries()) {
      const before = score.bars[index - 1];
      if (before) expect(subtractQuarters(bar.start, addQuarters(before.start, before.length)).num).toBe(0);
      expect(compareQuarters(bar.length, bar.metreLength)).toBeLessThanOrEqual(0);
    }
  });
});
