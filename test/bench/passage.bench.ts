import { drawPassage } from "@/lib/engrave/passage/draw-passage";
import type { PassageInput } from "@/lib/engrave/passage/passage-input";
import { openEngraver } from "@/lib/engrave/toolkit";
import { readScore } from "@/lib/musicxml/read-score";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

const barCount = 600;
const passageBars = 4;
const repetitions = 15;

/** Four bars of a long piece drawn alone, in the thread's own work: what a pianist waits for at the editor. */
export const benchmark = {
  name: `${passageBars} bars of ${barCount}, drawn alone`,
  async run(): Promise<Row[]> {
    const { toolkit } = await openEngraver();
    const source = new TextEncoder().encode(writeSyntheticScore(barCount));
    const read = readScore(source);
    if (!read.ok) throw new Error(read.problem.kind);
    const { score } = read.value;
    const part = score.parts.find(({ role }) => role === "reduction");
    if (!part) throw new Error("the score has no reduction");
    const input = (fromBar: number, change: Partial<PassageInput> = {}): PassageInput => ({
      ...{ sourceHash: "a".repeat(64), source, partId: part.id, fromBar, toBar: fromBar + passageBars - 1 },
      ...{ rewrite: null, as: "printed", layout: "desk" },
      ...change,
    });
    const rewriteOf = (fromBar: number, octave: number) =>
      toRewriteTerms({
        ...{ sourceHash: "a".repeat(64), partId: part.id, fromBar, words: "" },
        to: { barIndex: fromBar + passageBars, offset: "0" },
        bars: Array.from({ length: passageBars }, (_, index) =>
          readBarEvents(score, part, fromBar + index).map((event) => ({
            ...event,
            pitches: event.pitches.map((pitch) => ({ ...pitch, octave: Math.min(8, pitch.octave + octave) })),
          })),
        ),
      });
    const first = time(() => drawPassage(toolkit, input(100)));
    const others = many((round) => drawPassage(toolkit, input(110 + 10 * round)));
    const edits = many((round) =>
      drawPassage(toolkit, input(100, { rewrite: rewriteOf(100, round % 2), as: "instead" })),
    );
    const ossias = many((round) =>
      drawPassage(toolkit, input(100, { rewrite: rewriteOf(100, 1 + (round % 2)), as: "ossia" })),
    );
    return [
      {
        what: "first drawing, the source read for it",
        "median ms": Math.round(first),
        "longest ms": Math.round(first),
      },
      toRow("other bars of the same source", others),
      toRow("the same bars, rewritten otherwise", edits),
      toRow("the same bars with an ossia", ossias),
    ];
  },
};

function time(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

const many = (work: (round: number) => void): number[] =>
  Array.from({ length: repetitions }, (_, round) => time(() => work(round))).sort((a, b) => a - b);

const toRow = (what: string, times: readonly number[]): Row => ({
  what,
  "median ms": Math.round(times[Math.floor(times.length / 2)] ?? 0),
  "longest ms": Math.round(times.at(-1) ?? 0),
});
