import type { CutTerms } from "./cut-terms";
import type { EditionChange } from "./edition-change";
import { type EditionContent, hashEdition } from "./edition-content";
import { findChanges } from "./find-changes";
import { hashTerms } from "./hash-terms";
import type { RewriteTerms } from "./rewrite-terms";
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
  /** Rewrites that stand now and that the old edition does not have; only where the player is the one who plays them. */
  readonly takenOff: readonly RewriteTerms[];
  /** Rewrites of the old edition that do not stand now, in the order of the page; only for the same player. */
  readonly broughtBack: readonly RewriteTerms[];
  /** Of the old edition; null when they are the same now. */
  readonly tempo: TempoTerms | null;
  readonly partRoles: EditionContent["partRoles"] | null;
  /** What differs and is not brought back by this: breaths, cues and comments have their own authors, rewrites the pianist. */
  readonly left: readonly EditionChange[];
}

/**
 * What bringing `old` back would do to what stands now; every list empty and nothing set when they decide the same.
 *
 * @param rewrites whether the player says what is played instead of the print: the pianist.
 * @throws RangeError if the two are of different sources: places of the one are none in the other.
 */
export function planRestoration(
  now: EditionContent,
  old: EditionContent,
  { rewrites }: { readonly rewrites: boolean },
): Restoration {
  if (now.sourceHash !== old.sourceHash) throw new RangeError("An edition of another source");
  const changes = findChanges(now, old);
  const cuts = changes.flatMap((change) => (change.kind === "cut" ? [change] : []));
  return {
    reopened: cuts.flatMap(({ before }) => before ?? []),
    proposed: cuts.flatMap(({ before, after }) => (after ? [{ terms: after, insteadOf: before }] : [])),
    ...planRewrites(rewrites ? changes : []),
    tempo: hashTerms(now.tempo) === hashTerms(old.tempo) ? null : old.tempo,
    partRoles: hashTerms(now.partRoles) === hashTerms(old.partRoles) ? null : old.partRoles,
    left: changes.filter(({ kind }) => isLeft(kind) || (kind === "rewrite" && !rewrites)),
  };
}

function planRewrites(changes: readonly EditionChange[]): Pick<Restoration, "takenOff" | "broughtBack"> {
  const own = changes.flatMap((change) => (change.kind === "rewrite" ? [change] : []));
  return {
    takenOff: own.flatMap(({ before }) => before ?? []),
    broughtBack: own.flatMap(({ after }) => after ?? []),
  };
}

function isLeft(kind: EditionChange["kind"]): boolean {
  return kind === "breath" || kind === "cue" || kind === "remark";
}

/** Whether there is nothing that bringing it back would do. */
export function isRestored(restoration: Restoration): boolean {
  const { reopened, proposed, takenOff, broughtBack, tempo, partRoles } = restoration;
  const lists = [reopened, proposed, takenOff, broughtBack];
  return lists.every((list) => list.length === 0) && tempo === null && partRoles === null;
}

/** What would stand once the other player has agreed to everything that is put forward. */
export function contentAfter(now: EditionContent, restoration: Restoration): EditionContent {
  const reopened = new Set(restoration.reopened.map(hashTerms));
  const takenOff = new Set(restoration.takenOff.map(hashTerms));
  return {
    ...now,
    cuts: [
      ...now.cuts.filter((cut) => !reopened.has(hashTerms(cut))),
      ...restoration.proposed.map(({ terms }) => terms),
    ],
    rewrites: [
      ...now.rewrites.filter((rewrite) => !takenOff.has(hashTerms(rewrite))),
      ...restoration.broughtBack,
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
