import type { DeskCut } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import type { PassageAtPace } from "@/lib/study/hands-at-tempo";
import {
  type Bars,
  cutOver,
  isSettledBy,
  type PassageState,
  rewriteOf,
  sayStanding,
  sharesBars,
  stateOfPassage,
} from "./passage-state";
import { namePassage, sayFigures } from "./passage-words";

/** A place in the list: a passage that is awkward at this tempo, or bars in which something else is played. */
export interface ListedPlace extends Bars {
  readonly key: string;
  /** From 1, in the order of the page. */
  readonly number: number;
  /** "Repeated chords, right hand"; null where nothing is awkward at this tempo. */
  readonly name: string | null;
  readonly figures: string | null;
  readonly state: PassageState;
  readonly passage: PassageAtPace | null;
  readonly rewrite: DeskRewrite | null;
}

/**
 * Everything that the list has, in the order of the page.
 *
 * @param offersOf how many rewrites were found for some bars; null while that is not known.
 */
export function listPlaces({
  passages,
  rewrites,
  cuts,
  other,
  offersOf,
}: {
  passages: readonly PassageAtPace[];
  rewrites: readonly DeskRewrite[];
  cuts: readonly DeskCut[];
  /** The other player's first name. */
  other: string;
  offersOf: (bars: Bars) => number | null;
}): ListedPlace[] {
  const places = passages.map((passage) => {
    const { fromBar, toBar, strain, isEasyWhenShared } = passage;
    const rewrite = rewriteOf(rewrites, passage);
    const cut = cutOver(cuts, passage);
    return {
      ...{ fromBar, toBar, passage, rewrite },
      name: namePassage(strain),
      figures: sayFigures(strain),
      state: stateOfPassage({ rewrite, cut, other, isEasyWhenShared }, offersOf(passage)),
    };
  });
  const apart = rewrites
    .filter(
      (rewrite) =>
        rewrite.takenOffAt === null &&
        !rewrite.isStale &&
        !passages.some((passage) => sharesBars(passage, rewrite)),
    )
    .map((rewrite) => ({
      ...{ fromBar: rewrite.fromBar, toBar: rewrite.toBar, passage: null, rewrite },
      ...{ name: null, figures: null },
      state: { words: sayStanding(rewrite, other), place: null, isSolved: isSettledBy(rewrite) },
    }));
  return [...places, ...apart]
    .sort((a, b) => a.fromBar - b.fromBar || a.toBar - b.toBar)
    .map((place, index) => ({
      ...place,
      key: `${place.fromBar}-${place.toBar}-${index}`,
      number: index + 1,
    }));
}
