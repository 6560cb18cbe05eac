import type { HandsProfile } from "@/lib/hands/hands-profile";
import { sayStrain } from "@/lib/hands/say-strain";
import { orderPassages } from "@/lib/practice/order-passages";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { compareTempi, type PracticeTempo } from "@/lib/practice/practice-tempo";
import { type Dependence, nameBars, readDependence, weighPassage } from "@/lib/practice/weigh-passage";
import type { Steps } from "@/lib/score/steps";
import { type BarTempo, handsAtTempo } from "./hands-at-tempo";
import type { Study } from "./open-study";

export interface PracticeQuestion {
  readonly hands: HandsProfile;
}

/**
 * What this pianist has to practise up to the duo's tempo: the passages that are awkward at it, by difficulty times how
 * much the piece depends on them, the neediest first.
 */
export function* practisePiece(study: Study, { hands }: PracticeQuestion): Steps<readonly PracticePassage[]> {
  const { score } = study;
  const { passages, tempi } = yield* handsAtTempo(study, { hands, pace: 1, counted: [] });
  const dependence = dependenceOf(study);
  yield { done: 1, total: 1 };
  return orderPassages(
    passages.flatMap((passage): PracticePassage[] => {
      const { fromBar, toBar, strain, difficulty, comfortablePace, isEasyWhenShared } = passage;
      const [bar, last] = [score.bars[fromBar], score.bars[toBar]];
      const tempo = fastestOf(tempi.slice(fromBar, toBar + 1));
      if (!bar || !last || !tempo) return [];
      const weight = weighPassage(dependence, passage);
      const why = `${sayStrain(strain)}${isEasyWhenShared ? ` ${easyWhenShared}` : ""}`;
      return [
        {
          ...{ fromBar, toBar, label: nameBars(score, passage), why, metre: bar.metre },
          end: { barIndex: toBar, offset: last.length },
          ...{ tempo, difficulty, comfortablePace, weight },
        },
      ];
    }),
  );
}

const easyWhenShared = "Shared otherwise between the hands it is easy.";

/** By study: other hands are asked for again and again, the piece stays. */
const dependences = new WeakMap<Study, Dependence>();

function dependenceOf(study: Study): Dependence {
  const known = dependences.get(study) ?? readDependence(study.score, study.order);
  dependences.set(study, known);
  return known;
}

/** What has to be reached: the fastest, in whole beats a minute. */
function fastestOf(tempi: readonly BarTempo[]): PracticeTempo | null {
  const whole = tempi.map(({ beat, perMinute }) => ({ beat, perMinute: Math.max(1, Math.round(perMinute)) }));
  return whole.reduce<PracticeTempo | null>(
    (fastest, tempo) => (fastest && compareTempi(fastest, tempo) >= 0 ? fastest : tempo),
    null,
  );
}
