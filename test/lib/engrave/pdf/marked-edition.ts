import type { PositionTerms } from "@/lib/edition/position-terms";
import type { EditionMarks } from "@/lib/engrave/pdf/print-input";
import type { Score } from "@/lib/score/score";
import { randomRewrite } from "../../../builders/random-rewrite";
import { randomNumbers } from "../../musicxml/cut/random-cuts";

const start = (barIndex: number, offset = "0"): PositionTerms => ({ barIndex, offset });
const cues = ["Fl.", "Ob. solo", "Cor.", "Cl. & Fag.", "Vl. I", "Tutti"];
const remarks = [
  "Wait for the high B♭, then together.",
  "Not too early here; listen to the left hand and let the phrase end.",
  "more bow",
];

/** More marks than two players would write: cues, remarks and breaths all over, and ossias, some of several bars. */
export function markEverything(score: Score, ossiaCount: number): EditionMarks {
  const every = <T>(step: number, from: number, make: (bar: number, index: number) => T): T[] =>
    Array.from({ length: Math.max(0, Math.floor((score.bars.length - from) / step)) }, (_, index) =>
      make(from + index * step, index),
    );
  const random = randomNumbers(20261126);
  const reduction = score.parts.find(({ role }) => role === "reduction");
  return {
    breaths: every(7, 3, (bar) => ({ at: start(bar) })),
    cues: every(5, 1, (bar, index) => ({
      at: start(bar, index % 2 ? "1" : "0"),
      text: cues[index % cues.length] ?? "",
    })),
    remarks: every(6, 2, (bar, index) => ({
      from: start(bar, index % 2 ? "0" : "2"),
      to: start(bar + 1),
      text: remarks[index % remarks.length] ?? "",
      by: "Nerys Quill",
    })),
    rewrites: reduction
      ? Array.from({ length: ossiaCount }, () => randomRewrite(random, score, reduction, "ossia"))
      : [],
  };
}
