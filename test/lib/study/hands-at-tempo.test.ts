import { describe, expect, test } from "vitest";
import { hashText } from "@/lib/edition/hash-terms";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { findPassages } from "@/lib/hands/find-passages";
import { usualHands } from "@/lib/hands/hands-profile";
import { finishSteps } from "@/lib/score/steps";
import { handsAtTempo } from "@/lib/study/hands-at-tempo";
import { printedTerms, suggestRewrites } from "@/lib/study/suggest-rewrites";
import { UNPIANISTIC_PLACES } from "@/seed/concertino/planted";
import { demoHistory } from "@/seed/demo-history";
import { studyDemo } from "./demo-study";

const study = studyDemo();
const counted = [0.6, 0.8, 1, 1.2];
const at = (pace: number) => finishSteps(handsAtTempo(study, { hands: usualHands, pace, counted }));
const indexOf = (label: string) => study.score.bars.find((bar) => bar.label === label)?.index ?? -1;

describe("the demo under usual hands", () => {
  const now = at(1);

  test.each(UNPIANISTIC_PLACES)("has $kind in bars $bars.from to $bars.to", ({ bars }) => {
    const [from, to] = [indexOf(bars.from), indexOf(bars.to)];
    const found = now.passages.filter((passage) => passage.fromBar <= to && passage.toBar >= from);
    expect(found).not.toEqual([]);
    for (const { strains } of found) expect(strains[0]?.load).toBeGreaterThan(1);
  });

  test.each(UNPIANISTIC_PLACES)(
    "has $kind in bars $bars.from to $bars.to for its own pianist too",
    (place) => {
      const { profile: hands } = demoHistory.hands;
      const [from, to] = [indexOf(place.bars.from), indexOf(place.bars.to)];
      const { passages } = finishSteps(handsAtTempo(study, { hands, pace: 1, counted: [] }));
      const found = passages.filter(({ fromBar, toBar }) => fromBar <= to && toBar >= from);
      expect(found.map(({ hand }) => hand)).toContain(place.hand);
    },
  );

  test("is told for each bar as for the bar alone", () => {
    const { bars } = assessHands(study.score, study.map, usualHands);
    const alone = bars.map((bar) => barAtTempo(bar, 1));
    expect(now.bars.map(({ difficulty }) => difficulty)).toEqual(alone.map(({ difficulty }) => difficulty));
    expect(now.passages.map(({ fromBar, toBar }) => [fromBar, toBar])).toEqual(
      findPassages(alone).map(({ fromBar, toBar }) => [fromBar, toBar]),
    );
  });

  test("has the tempo of each bar, in the beats of its metre", () => {
    expect(now.tempi).toHaveLength(study.score.bars.length);
    const coda = now.tempi[indexOf("206")];
    // Sixteenths are struck 9.2 times a second there: four to a quarter.
    expect((coda?.perMinute ?? 0) / 15).toBeCloseTo(9.2, 5);
    expect(coda?.beat).toBe("1");
  });

  test("counts the passages of other tempi as if they were asked for", () => {
    expect(now.counts).toEqual(counted.map((pace) => at(pace).passages.length));
    expect([...now.counts].sort((a, b) => a - b)).toEqual(now.counts);
  });

  test("is comfortable up to its comfortable tempo and no further", () => {
    const timed = now.passages.filter(
      ({ comfortablePace, isEasyWhenShared }) => comfortablePace > 0 && !isEasyWhenShared,
    );
    expect(timed).not.toEqual([]);
    for (const { fromBar, toBar, comfortablePace } of timed) {
      const worst = (pace: number) =>
        Math.max(
          ...at(pace)
            .bars.slice(fromBar, toBar + 1)
            .map(({ difficulty }) => difficulty),
        );
      expect(worst(comfortablePace * 0.99)).toBeLessThanOrEqual(50);
      expect(worst(comfortablePace * 1.05)).toBeGreaterThan(50);
    }
  });
});

describe("suggested rewrites", () => {
  const [place] = UNPIANISTIC_PLACES;
  const question = {
    ...{ sourceHash: hashText("the concertino"), hands: usualHands, pace: 1 },
    ...{ fromBar: indexOf(place?.bars.from ?? ""), toBar: indexOf(place?.bars.to ?? "") },
  };

  test("come with the print they change, and the same ones when asked again", () => {
    const found = finishSteps(suggestRewrites(study, question));
    expect(found.offers.length).toBeGreaterThan(0);
    expect(found.printed).toEqual(printedTerms(study, question));
    for (const { terms } of found.offers) {
      expect(terms.from).toEqual(found.printed.from);
      expect(terms.to).toEqual(found.printed.to);
    }
    expect(finishSteps(suggestRewrites(study, { ...question }))).toBe(found);
  });

  test("of bars that are not there are refused", () => {
    expect(() => printedTerms(study, { ...question, toBar: 9999 })).toThrow(RangeError);
    expect(() => printedTerms(study, { ...question, fromBar: question.toBar + 1 })).toThrow(RangeError);
  });

  test("can be left between two bars", () => {
    const steps = suggestRewrites(studyDemo(), { ...question, toBar: question.fromBar });
    const first = steps.next();
    expect(first.done).toBe(false);
    expect(steps.return({ printed: printedTerms(study, question), offers: [] }).done).toBe(true);
  });
});
