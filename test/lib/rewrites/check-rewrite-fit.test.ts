import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hashText } from "@/lib/edition/hash-terms";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { type BarEvent, writeEvents } from "@/lib/rewrites/bar-event";
import { barsOfTerms } from "@/lib/rewrites/bars-of-terms";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import { toTheOtherHand } from "@/lib/rewrites/operators/other-hand";
import { tremoloFor } from "@/lib/rewrites/operators/tremolo";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { quarters, readQuarters, scaleQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { buildScore } from "@/test/builders/build-score";
import { arbitraryPiano } from "@/test/lib/hands/arbitrary-piano";

const sourceHash = hashText("a source");

/** Some bars as they are printed, or changed by `change`. */
function termsOf(
  score: Score,
  [fromBar, toBar]: readonly [number, number],
  change: (events: readonly BarEvent[]) => readonly BarEvent[] = (events) => events,
): RewriteTerms {
  const part = score.parts.find(({ role }) => role === "reduction");
  if (!part) throw new Error("no reduction");
  const bars = Array.from({ length: toBar - fromBar + 1 }, (_, index) =>
    change(readBarEvents(score, part, fromBar + index)),
  );
  const to = { barIndex: toBar, offset: writeQuarters(score.bars[toBar]?.length ?? quarters(4)) };
  return toRewriteTerms({ ...{ sourceHash, partId: part.id, fromBar, to, bars, words: "" } });
}

const small = buildScore({
  metre: "4/4",
  solo: "R | R | R",
  piano: ["c5:h d5:h | e5:q f5:q g5:h | c5:w", "c3:w | R | c3:w"],
});
const problemOf = (terms: RewriteTerms, score = small) => {
  const checked = checkRewriteFit(score, terms);
  return checked.ok ? null : checked.problem;
};
const withEvent = (terms: RewriteTerms, index: number, change: Partial<RewriteEvent>): RewriteTerms => ({
  ...terms,
  events: terms.events.map((event, at) => (at === index ? { ...event, ...change } : event)),
});

describe("what fits", () => {
  test("is the print itself, and whatever the operators make of it, without a change", () => {
    const right = fc.integer({ min: 50, max: 70 });
    fc.assert(
      fc.property(arbitraryPiano, right, fc.boolean(), (score, rightFromMidi, isTremolo) => {
        const reach = { left: 16, right: 16 };
        const about = {
          ...{ barIndex: 0, length: quarters(4), beat: quarters(1), staffCount: 2 },
          reach,
          solo: [],
        };
        const operator = isTremolo ? tremoloFor("right") : toTheOtherHand;
        const terms = termsOf(score, [0, 2], (events) => {
          return operator.apply(events, { ...about, rightFromMidi }) ?? events;
        });
        expect(checkRewriteFit(score, terms)).toEqual({ ok: true, value: terms });
      }),
      { numRuns: 100 },
    );
  });

  test("has one spelling, however its events are ordered and its end is named", () => {
    const terms = termsOf(small, [0, 1]);
    const turned = { ...terms, events: terms.events.toReversed(), to: { barIndex: 2, offset: "0" } };
    expect(checkRewriteFit(small, turned)).toEqual({ ok: true, value: terms });
    expect(barsOfTerms(terms).map(writeEvents)).toEqual(barsOfTerms(turned).map(writeEvents));
  });

  test("may add a voice that pauses", () => {
    const terms = termsOf(small, [0, 0]);
    const [first] = terms.events;
    if (!first) throw new Error("nothing there");
    const added = { ...first, at: { barIndex: 0, offset: "3" }, lasts: "1", voice: 4 };
    expect(problemOf({ ...terms, events: [...terms.events, added] })).toBeNull();
  });
});

describe("what does not fit is refused", () => {
  test("a voice that became shorter or longer, wherever it is", () => {
    fc.assert(
      fc.property(arbitraryPiano, fc.nat(), fc.constantFrom("gone", "half", "double"), (score, at, how) => {
        const terms = termsOf(score, [0, 2]);
        const index = at % terms.events.length;
        const event = terms.events[index];
        const length = event && readQuarters(event.lasts);
        if (!length) throw new Error("no length");
        const other = writeQuarters(how === "half" ? scaleQuarters(length, 1, 2) : scaleQuarters(length, 2));
        const changed =
          how === "gone"
            ? { ...terms, events: terms.events.filter((_, place) => place !== index) }
            : withEvent(terms, index, { lasts: other });
        expect(checkRewriteFit(score, changed).ok).toBe(false);
      }),
      { numRuns: 150 },
    );
  });

  const terms = termsOf(small, [0, 1]);
  const stray = { barIndex: 2, offset: "0" };
  test.each([
    ["part of a bar", { ...terms, to: { barIndex: 1, offset: "2" } }],
    ["a start inside a bar", { ...terms, from: { barIndex: 0, offset: "1" } }],
    ["bars that are not there", { ...terms, to: { barIndex: 9, offset: "4" } }],
    ["a bar that has no end there", { ...terms, to: { barIndex: 1, offset: "7" } }],
    ["no bars", { ...terms, to: { barIndex: 0, offset: "0" } }],
    ["another part", { ...terms, partId: "P9" }],
    ["the solo part", { ...terms, partId: small.parts.find(({ role }) => role === "solo")?.id ?? "" }],
    ["a note outside", withEvent(terms, 0, { at: stray })],
    ["a staff that a piano has not", withEvent(terms, 0, { staff: 3 })],
    ["a tie of no note", withEvent(terms, 0, { tied: [1] })],
    ["two things at one time", { ...terms, events: [...terms.events, ...terms.events.slice(0, 1)] }],
    ["nothing at all", { ...terms, events: [] }],
  ])("%s", (_name, wrong) => {
    expect(problemOf(wrong)).toMatch(/\.$/);
  });

  test("and is named by its bar and its voice", () => {
    const [, second] = terms.events;
    const short = { ...terms, events: terms.events.filter((event) => event !== second) };
    expect(problemOf(short)).toBe(
      "Voice 1 of staff 1 in bar 1 is not as long as it is printed. Fill it with rests, or shorten what is too long.",
    );
  });
});
