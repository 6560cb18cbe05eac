import { findReductionParts } from "@/lib/score/find-part";
import type { Score } from "@/lib/score/score";
import { readCue } from "./cue-instruments";

/** The words of a reduction that name instruments and nothing else, as printed, each once, in the order of the page. */
export function findPrintedCues(score: Score): string[] {
  const words = findReductionParts(score).flatMap(({ directions }) =>
    directions.flatMap((direction) => (direction.kind === "words" ? [direction.text.trim()] : [])),
  );
  return [...new Set(words)].filter((text) => readCue(text) !== null);
}
