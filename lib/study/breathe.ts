import { assessBreathUnderCuts, type BreathReport } from "@/lib/breath/assess-breath";
import type { BreathPreferences } from "@/lib/breath/breath-preferences";
import { type CheckedNeed, checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { type FoundRest, findRestsUnderCuts } from "@/lib/breath/find-rests";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import type { Study } from "./open-study";

/** What is asked about the soloist's air and rest. */
export interface BreathQuestion {
  readonly cuts: readonly CutSpan[];
  readonly needs: readonly RestNeed[];
  /** The breaths that the player marked. */
  readonly marks: readonly Position[];
  /** The player's own numbers; what is missing has its default for the instrument. */
  readonly preferences: Partial<BreathPreferences>;
  /** Rests shorter than this are not listed, in seconds. */
  readonly shortestRest: number;
}

/** The soloist's breath and rest, without the cuts and with them. */
export interface BreathAnswer {
  /** Null without a solo part, or when it plays nothing. */
  readonly before: BreathReport | null;
  readonly after: BreathReport | null;
  /** In performed order. */
  readonly rests: readonly FoundRest[];
  /** In the order given. */
  readonly needs: readonly CheckedNeed[];
}

/** @throws RangeError if a cut cannot be made, a need lies outside the piece, or a number makes no sense. */
export function breathe(study: Study, question: BreathQuestion): BreathAnswer {
  const { score, map } = study;
  const { cuts, needs, marks, preferences, shortestRest } = question;
  const phraseStarts = study
    .heard()
    .phrases.filter(({ isChosen }) => isChosen)
    .map(({ barIndex }) => barIndex);
  return {
    ...assessBreathUnderCuts(score, map, cuts, { marks, preferences, phraseStarts }),
    rests: findRestsUnderCuts(score, map, cuts, shortestRest),
    needs: checkRestNeeds(score, map, cuts, needs),
  };
}
