import { describe, expect, test } from "vitest";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { drawPassage } from "@/lib/engrave/passage/draw-passage";
import { type DrawnPassage, drawnPassageSchema } from "@/lib/engrave/passage/drawn-passage";
import type { PassageInput } from "@/lib/engrave/passage/passage-input";
import { sourceMissing } from "@/lib/engrave/passage/source-missing";
import { openEngraver } from "@/lib/engrave/toolkit";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { writeQuarters } from "@/lib/score/quarters";
import { openStudy } from "@/lib/study/open-study";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

const source = new TextEncoder().encode(writeSoloAndReduction());
const opened = openStudy(source, { partRoles: {}, tempo: printedTempo, longTuttiBars: 16 });
if (!opened.ok) throw new Error(opened.problem.kind);
const { score } = opened.value;
const part = score.parts.find(({ role }) => role === "reduction")!;
const { toolkit } = await openEngraver();

const [fromBar, toBar] = [40, 43];
/** The print with every chord of the upper staff a note thinner, so that it differs in every bar. */
const thinner: RewriteTerms = toRewriteTerms({
  ...{ sourceHash: "a".repeat(64), partId: part.id, fromBar, words: "" },
  to: { barIndex: toBar, offset: writeQuarters(score.bars[toBar]!.length) },
  bars: Array.from({ length: toBar - fromBar + 1 }, (_, index) =>
    readBarEvents(score, part, fromBar + index).map((event) =>
      event.staff === 1 && event.pitches.length > 0
        ? { ...event, pitches: event.pitches.slice(-1), tied: [], tremolo: null }
        : event,
    ),
  ),
});

const draw = (change: Partial<PassageInput> = {}): DrawnPassage =>
  drawPassage(toolkit, {
    ...{ sourceHash: "a".repeat(64), source, partId: part.id, fromBar, toBar, rewrite: null },
    ...{ as: "printed", layout: "desk" },
    ...change,
  });

const idsIn = (passage: DrawnPassage) =>
  new Set(
    passage.systems.flatMap(({ svg }) =>
      [...svg.matchAll(/<g id="([^"]+)" class="note/g)].map(([, id]) => id),
    ),
  );

describe("a passage drawn alone", () => {
  test("has its bars, counted and numbered as in the source, and what holds where it begins", () => {
    const passage = drawnPassageSchema.parse(draw());
    const boxes = passage.systems.flatMap(({ bars }) => bars);
    expect(boxes.map(({ barIndex }) => barIndex)).toEqual([40, 41, 42, 43]);
    expect(boxes.every(({ staves }) => staves.length === 2)).toBe(true);
    expect(passage.bars.map(({ label }) => label)).toEqual(
      score.bars.slice(fromBar, toBar + 1).map(({ label }) => label),
    );
    const starts = passage.clefs.filter(({ barIndex, offset }) => barIndex === fromBar && offset === "0");
    expect(starts.map(({ staff }) => staff)).toEqual(expect.arrayContaining([1, 2]));
    expect(passage.keys[0]).toMatchObject({
      barIndex: fromBar,
      offset: "0",
      fifths: score.bars[fromBar]!.key.fifths,
    });
    expect(passage.systems[0]!.svg).toContain(">40</tspan>");
  });

  test("places every note of the print and draws each under its id", () => {
    const passage = draw();
    const printed = part.notes.filter(
      ({ barIndex, isHidden }) => barIndex >= fromBar && barIndex <= toBar && !isHidden,
    );
    expect(passage.notes.map(({ id }) => id).sort()).toEqual(printed.map(({ id }) => id).sort());
    expect(idsIn(passage)).toEqual(new Set(passage.notes.map(({ id }) => id)));
  });

  test("with a rewrite instead: its notes and no others, at their places", () => {
    const passage = draw({ rewrite: thinner, as: "instead" });
    const names = passage.notes.map(({ barIndex, staff, step, alter, octave }) =>
      [barIndex, staff, step, alter, octave].join(" "),
    );
    const wanted = thinner.events.flatMap(({ at, staff, pitches }) =>
      pitches.map(({ step, alter, octave }) => [at.barIndex, staff, step, alter, octave].join(" ")),
    );
    expect(new Set(names)).toEqual(new Set(wanted));
    expect(idsIn(passage)).toEqual(new Set(passage.notes.map(({ id }) => id)));
    expect(passage.notes.some(({ isOssia }) => isOssia)).toBe(false);
  });

  test("as an ossia: the print stays, the changed staff stands over it", () => {
    const passage = draw({ rewrite: thinner, as: "ossia" });
    const [small, full] = [true, false].map((is) => passage.notes.filter(({ isOssia }) => isOssia === is));
    expect(full!.map(({ id }) => id).sort()).toEqual(
      draw()
        .notes.map(({ id }) => id)
        .sort(),
    );
    expect(new Set(small!.map(({ staff }) => staff))).toEqual(new Set([1]));
    expect(idsIn(passage)).toEqual(new Set(passage.notes.map(({ id }) => id)));
  });

  test("draws the same again after other passages: what is kept is never written into", () => {
    const first = draw();
    draw({ rewrite: thinner, as: "ossia" });
    draw({ rewrite: thinner, as: "instead", layout: "phone" });
    expect(draw({ source: null })).toEqual(first);
  });

  test("asks for the source when it has not got it", () => {
    expect(() => draw({ sourceHash: "b".repeat(64), source: null })).toThrow(sourceMissing);
  });
});
