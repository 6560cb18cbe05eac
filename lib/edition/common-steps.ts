import { canonicalJson, type JsonValue } from "./canonical-json";
import { type EditionContent, sortCuts } from "./edition-content";
import { sharesMusic } from "./pair-cuts";
import { pairBreaths, pairCues, pairRemarks, pairRewrites } from "./pair-marks";

/**
 * What two versions began with, and the steps that both have made alike since: what stands in both now, and without what
 * that came in the place of. Whichever of two new things an old one is said to have become is a way of telling it; found
 * from here, what is left to tell does not depend on it.
 */
export function takeCommonSteps(
  base: EditionContent,
  one: EditionContent,
  other: EditionContent,
): EditionContent {
  return {
    ...base,
    cuts: sortCuts(
      takeIn(base.cuts, one.cuts, other.cuts, (gone, fresh) =>
        gone.filter((cut) => fresh.some((each) => sharesMusic(cut, each))),
      ),
    ),
    breaths: takeIn(base.breaths, one.breaths, other.breaths, moved(pairBreaths)),
    cues: takeIn(base.cues, one.cues, other.cues, moved(pairCues)),
    rewrites: takeIn(base.rewrites, one.rewrites, other.rewrites, moved(pairRewrites)),
    remarks: takeIn(base.remarks, one.remarks, other.remarks, moved(pairRemarks)),
  };
}

/** @param findReplaced which of those that are gone gave way to the new ones. */
function takeIn<Terms extends JsonValue>(
  base: readonly Terms[],
  one: readonly Terms[],
  other: readonly Terms[],
  findReplaced: (gone: readonly Terms[], fresh: readonly Terms[]) => readonly Terms[],
): Terms[] {
  const [inBase, inOne, inOther] = [base, one, other].map(
    (list) => new Set(list.map((terms) => canonicalJson(terms))),
  ) as [Set<string>, Set<string>, Set<string>];
  const fresh = one.filter((terms) => {
    const text = canonicalJson(terms);
    return inOther.has(text) && !inBase.has(text);
  });
  const gone = base.filter((terms) => {
    const text = canonicalJson(terms);
    return !inOne.has(text) && !inOther.has(text);
  });
  const replaced = new Set(findReplaced(gone, fresh));
  return [...base.filter((terms) => !replaced.has(terms)), ...fresh];
}

interface Pair<Terms> {
  readonly before: Terms | null;
  readonly after: Terms | null;
}

const moved =
  <Terms>(pair: (gone: readonly Terms[], fresh: readonly Terms[]) => readonly Pair<Terms>[]) =>
  (gone: readonly Terms[], fresh: readonly Terms[]): Terms[] =>
    pair(gone, fresh).flatMap(({ before, after }) => (before !== null && after !== null ? [before] : []));
