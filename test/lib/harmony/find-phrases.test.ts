import { describe, expect, it } from "vitest";
import { findCadences } from "@/lib/harmony/find-cadences";
import { findChords } from "@/lib/harmony/find-chords";
import { findHypermetre } from "@/lib/harmony/find-hypermetre";
import { findLocalKeys } from "@/lib/harmony/find-local-keys";
import { findPhrases, type PhraseStart } from "@/lib/harmony/find-phrases";
import type { Score } from "@/lib/score/score";
import { buildScore } from "../../builders/build-score";

function phrasesOf(score: Score): PhraseStart[] {
  return findPhrases(score, findCadences(score, findChords(score, findLocalKeys(score))));
}

const starts = (score: Score) =>
  phrasesOf(score).flatMap(({ barIndex, isChosen }) => (isChosen ? [barIndex] : []));

const four = "c5:q d5 e5 g5 | f5 e5 d5 a4 | b4 c5 d5 f5 | c5:h. r:q";
const answer = "e5:q f5 g5 e5 | d5 c5 b4 d5 | e5 d5 c5 b4 | c5:h. r:q";
const bass = "c3:h e3 | f3 d3 | g3 g2 | c3:w";
const period = {
  solo: `${four} | ${answer} | ${four} | ${answer}`,
  piano: [bass, bass, bass, bass].join(" | "),
};

describe("phrases", () => {
  it("of four bars start after the rests", () => {
    expect(starts(buildScore(period))).toEqual([0, 4, 8, 12]);
  });

  it("are likelier where the signs are, and the signs are told", () => {
    const phrases = phrasesOf(buildScore(period));
    const [at, inside] = [phrases[8]!, phrases[6]!];
    expect(at.likelihood).toBeGreaterThan(inside.likelihood);
    expect(at.evidence.entering).toContain("P1");
    expect(at.evidence.beginsLikeBar).toBe(0);
    expect(inside.evidence).toMatchObject({ entering: [], beginsLikeBar: null });
  });

  it("start with the bar that their upbeat leads to", () => {
    const score = buildScore({
      solo: "g4:q | c5 d5 e5 g5 | f5 e5 d5 a4 | b4 c5 d5 f5 | c5:h r:q g4 | e5 f5 g5 e5 | d5 c5 b4 d5 | e5 d5 c5 b4 | c5:h.",
      piano: `r:q | ${bass} | c3:h e3 | f3 d3 | g3 g2 | c3:h.`,
    });
    expect(starts(score)).toEqual([1, 5]);
  });

  it("are marked by what is printed", () => {
    const plain = "c5:q d5 e5 d5";
    const bars = Array.from({ length: 8 }, (_, bar) => (bar === 5 ? `[B] "Allegro" ${plain}` : plain)).join(
      " | ",
    );
    const phrases = phrasesOf(buildScore({ solo: bars }));
    expect(phrases[5]?.evidence.printed).toEqual(["tempo", "rehearsal"]);
    expect(phrases.toSorted((a, b) => b.likelihood - a.likelihood)[0]?.barIndex).toBe(5);
  });

  it("one for each bar, none without bars", () => {
    expect(phrasesOf(buildScore({ solo: "R*7" }))).toHaveLength(7);
    expect(phrasesOf(buildScore({ solo: "" }))).toEqual([]);
  });
});

describe("hypermetre", () => {
  const groups = (score: Score, size: 2 | 4) =>
    findHypermetre(score, phrasesOf(score), size).groups.map(({ from, to }) => `${from}–${to}`);

  it("groups bars by four and by two in phase with the phrases", () => {
    const score = buildScore(period);
    expect(groups(score, 4)).toEqual(["0–4", "4–8", "8–12", "12–16"]);
    expect(groups(score, 2)).toEqual(["0–2", "2–4", "4–6", "6–8", "8–10", "10–12", "12–14", "14–16"]);
  });

  it("shifts its phase where a bar is put in, and says so", () => {
    const score = buildScore({
      solo: `${four} | R | ${answer} | ${four} | ${answer}`,
      piano: `${bass} | c3:w | ${bass} | ${bass} | ${bass}`,
    });
    const { groups: found, shifts } = findHypermetre(score, phrasesOf(score), 4);
    expect(found.slice(-3).map(({ from }) => from)).toEqual([5, 9, 13]);
    expect(shifts).toEqual([5]);
  });

  it("leaves an upbeat outside and tells its evidence", () => {
    const score = buildScore({
      solo: `g4:q | ${four} | ${answer}`,
      piano: `r:q | ${bass} | ${bass}`,
    });
    const { groups: found } = findHypermetre(score, phrasesOf(score), 4);
    expect(found.map(({ from, to }) => [from, to])).toEqual([
      [1, 5],
      [5, 9],
    ]);
    expect(found[0]?.evidence.likeGroupBefore).toBeNull();
    expect(found[1]?.evidence.likeGroupBefore).toBeGreaterThan(0);
    expect(found[1]?.evidence.regularInARow).toBe(2);
  });

  it("tiles the bars of any piece", () => {
    for (const bars of [1, 2, 3, 5, 6, 7, 11]) {
      const score = buildScore({ solo: `R*${bars}` });
      const { groups: found } = findHypermetre(score, phrasesOf(score), 4);
      expect(found.map(({ from, to }) => to - from).reduce((sum, length) => sum + length, 0)).toBe(bars);
    }
  });
});
