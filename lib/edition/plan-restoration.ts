import type { CutTerms } from "./cut-terms";
import type { EditionChange } from "./edition-change";
import { type EditionContent, hashEdition } from "./edition-content";
import { findChanges } from "./find-changes";
import { hashTerms } from "./hash-terms";
import type { TempoTerms } from "./tempo-terms";

/** What it takes to make an old edition stand again, as far as one player may begin it. */
export interface Restoration {
  /** Agreed cuts that the old edition does not have. The player takes the yes to them back. */
  readonly reopened: readonly CutTerms[];
  /** Cuts of the old edition that are not agreed now, in the order of the page. The other player answers them. */
  readonly proposed: readonly {
    readonly terms: CutTerms;
    /** The agreed cut that plainly became this one; it is among `reopened`. */
    readonly insteadOf: CutTerms | null;
  }[];
  /** Of the old edition; null when they are the same now. */
  readonly tempo: TempoTerms | null;
  readonly partRoles: EditionContent["partRoles"] | null;
  /** What differs and is not brought back by this: breaths, cues, rewrites and comments have their own authors. */
  readonly left: readonly EditionChange[];
}

/**
 * What bringing `old` back would do to what stands now; every list empty and nothing set when they decide the same.
 *
 * @throws RangeError if the two are of different sources: places of the one are none in the other.
 */
export function planRestoration(now: EditionContent, old: EditionContent): Restoration {
  if (now.sourceHash !== old.sourceHash) throw new RangeError("An edition of another source");
  const changes = findChanges(now, old);
  const cuts = changes.flatMap((change) => (change.kind === "cut" ? [change] : []));
  return {
    reopened: cuts.flatMap(({ before }) => before ?? []),
    proposed: cuts.flatMap(({ before, after }) => (after ? [{ terms: after, insteadOf: before }] : [])),
    tempo: hashTerms(now.tempo) === hashTerms(old.tempo) ? null : old.tempo,
    partRoles: hashTerms(now.partRoles) === hashTerms(old.partRoles) ? null : old.partRoles,
    left: changes.filter(({ kind }) => isLeft(kind)),
  };
}

function isLeft(kind: EditionChange["kind"]): boolean {
  return kind === "breath" || kind === "cue" || kind === "rewrite" || kind === "remark";
}

/** Whether there is nothing that bringing it back would do. */
export function isRestored({ reopened, proposed, tempo, partRoles }: Restoration): boolean {
  return reopened.length === 0 && proposed.length === 0 && tempo === null && partRoles === null;
}

/** What would stand once the other player has agreed to every cut that is put forward. */
export function contentAfter(now: EditionContent, restoration: Restoration): EditionContent {
  const reopened = new Set(restoration.reopened.map(hashTerms));
  return {
    ...now,
    cuts: [
      ...now.cuts.filter((cut) => !reopened.has(hashTerms(cut))),
      ...restoration.proposed.map(({ terms }) => terms),
    ],
    tempo: restoration.tempo ?? now.tempo,
    partRoles: restoration.partRoles ?? now.partRoles,
  };
}

/** Whether two contents cut, time and use the parts alike, whatever marks they have. */
export function isPlayedAlike(a: EditionContent, b: EditionContent): boolean {
  const without = (content: EditionContent): EditionContent => ({
    ...content,
    schema: 2,
    ...{ breaths: [], cues: [], rewrites: [], remarks: [] },
  });
  return hashEdition(without(a)) === hashEdition(without(b));
}
