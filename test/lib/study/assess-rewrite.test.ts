import { describe, expect, test } from "vitest";
import { hashText } from "@/lib/edition/hash-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { assessHands } from "@/lib/hands/assess-hands";
import { usualHands } from "@/lib/hands/hands-profile";
import { barSpanOf, barsOfTerms } from "@/lib/rewrites/bars-of-terms";
import { shiftOctaves } from "@/lib/rewrites/editing/change-pitch";
import { eventAt, placeOf } from "@/lib/rewrites/editing/event-place";
import { setTremolo } from "@/lib/rewrites/editing/set-tremolo";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { readTempoMap } from "@/lib/score/tempo-map";
import { assessRewrite } from "@/lib/study/assess-rewrite";
import { rewritePassage } from "@/lib/study/rewrite-passage";
import { UNPIANISTIC_PLACES } from "@/seed/concertino/planted";
import { buildScore } from "@/test/builders/build-score";
import { termsOf } from "../rewrites/editing/written-terms";
import { studyDemo } from "./demo-study";

const study = studyDemo();
const { score, map } = study;
const { bars: demands } = assessHands(score, map, usualHands);
const indexOf = (label: string) => score.bars.find((bar) => bar.label === label)?.index ?? -1;
const isWhole = ({ kept, of }: { kept: number; of: number }) => kept === of;

/** Two bars of octaves struck again and again, far too fast. */
const octaves = buildScore({
  ...{ metre: "4/4", tempo: 126, solo: "R" },
  piano: [Array.from({ length: 16 }, () => "c5+c6:s").join(" "), "c3:w"],
});
const judge = (terms: RewriteTerms, pace = 1) =>
  assessRewrite({ score: octaves, map: readTempoMap(octaves) }, { terms, hands: usualHands, pace });

describe("a rewrite, judged as it stands", () => {
  test("that is the print: as hard as before, nothing lost, the reasons named", () => {
    const { difficultyBefore, difficultyAfter, fidelity, reasons, isWithinReach } = judge(termsOf(octaves));
    expect(difficultyAfter).toBe(difficultyBefore);
    expect(difficultyBefore).toBeGreaterThan(50);
    expect(Object.values(fidelity).every(isWhole)).toBe(true);
    expect(reasons[0]).toMatch(/^Right hand: .* times a second; you manage .* with ease\.$/);
    expect(isWithinReach).toBe(true);
  });

  test("as a tremolo to and fro: easy, bass and top line kept, no reason left", () => {
    const printed = termsOf(octaves);
    const [first, ...others] = printed.events.filter(({ staff }) => staff === 1);
    const held = {
      ...printed,
      events: [
        { ...first!, lasts: "4" },
        ...printed.events.filter((event) => !others.includes(event) && event !== first),
      ],
    };
    const rocked = setTremolo(held, placeOf(first!), { way: "to and fro", strokes: 3 });
    if (!rocked.ok) throw new Error(rocked.problem.sentence);
    const { difficultyBefore, difficultyAfter, fidelity, reasons } = judge(rocked.value);
    expect(difficultyAfter).toBeLessThan(50);
    expect(difficultyAfter).toBeLessThan(difficultyBefore);
    expect(reasons).toEqual([]);
    expect([fidelity.bass, fidelity.topLine, fidelity.rhythm].every(isWhole)).toBe(true);
  });

  test("slower is never harder", () => {
    const terms = termsOf(octaves);
    const paces = [0.25, 0.5, 0.75, 1, 1.25].map((pace) => judge(terms, pace).difficultyAfter);
    expect(paces).toEqual([...paces].sort((a, b) => a - b));
  });

  test("beyond the hand is said to be so, with the reason", () => {
    const wide = shiftOctaves(
      termsOf(octaves),
      { place: placeOf(termsOf(octaves).events[0]!), pitch: { step: "C", alter: 0, octave: 6 } },
      1,
    );
    if (!wide.ok) throw new Error(wide.problem.sentence);
    const { isWithinReach, reasons } = judge(wide.value);
    expect(isWithinReach).toBe(false);
    expect(reasons.join(" ")).toContain("two octaves struck together");
  });

  test("what is lost is told: a bass an octave higher is another bass", () => {
    const printed = termsOf(octaves);
    const bass = printed.events.find(({ staff }) => staff === 2)!;
    const raised = shiftOctaves(printed, { place: placeOf(bass), pitch: null }, 1);
    if (!raised.ok) throw new Error(raised.problem.sentence);
    const { fidelity } = judge(raised.value);
    expect(fidelity.bass.kept).toBe(0);
    expect(isWhole(fidelity.topLine)).toBe(true);
    expect(eventAt(raised.value, placeOf(bass)).pitches).toEqual([{ step: "C", alter: 0, octave: 4 }]);
  });

  test.each(UNPIANISTIC_PLACES)(
    "$kind in bars $bars.from to $bars.to: the same figures as the suggestion's own",
    ({ bars }) => {
      const [best] = rewritePassage({
        ...{ score, map, demands, hands: usualHands, pace: 1, sourceHash: hashText("the concertino") },
        ...{ fromBar: indexOf(bars.from), toBar: indexOf(bars.to) },
      });
      const { difficultyBefore, difficultyAfter, fidelity, losesGraceNotes, terms } = best!;
      expect(assessRewrite(study, { terms, hands: usualHands, pace: 1 })).toMatchObject({
        ...{ difficultyBefore, difficultyAfter, fidelity, losesGraceNotes },
        isWithinReach: true,
      });
    },
  );

  test("reading a rewrite back gives the bars that it was made from", () => {
    const part = score.parts.find(({ role }) => role === "reduction")!;
    const bars = [40, 41, 42].map((bar) => readBarEvents(score, part, bar));
    const terms = toRewriteTerms({
      ...{ sourceHash: hashText("a"), partId: part.id, fromBar: 40, words: "", bars },
      to: { barIndex: 43, offset: "0" },
    });
    expect(barSpanOf(terms)).toEqual({ fromBar: 40, toBar: 42 });
    expect(barsOfTerms(terms)).toEqual(bars);
  });
});
