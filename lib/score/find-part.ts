import type { Part } from "./part";
import type { Score } from "./score";

/** The part of the soloist; the first in score order when several have that role, null when none has. */
export function findSoloPart(score: Score): Part | null {
  return score.parts.find((part) => part.role === "solo") ?? null;
}

/** What the pianist plays: all parts with the role of a reduction, in score order. */
export function findReductionParts(score: Score): Part[] {
  return score.parts.filter((part) => part.role === "reduction");
}

/** What plays while the soloist is silent: reduction and orchestra, in score order. */
export function findAccompanyingParts(score: Score): Part[] {
  return score.parts.filter((part) => part.role === "reduction" || part.role === "orchestra");
}
