import type { RewriteTerms } from "@/lib/edition/rewrite-terms";

/** All that a rewrite has been while it was edited. Never empty. */
export interface EditHistory {
  readonly states: readonly RewriteTerms[];
  /** Place of the one that stands. */
  readonly at: number;
}

export const beginHistory = (terms: RewriteTerms): EditHistory => ({ states: [terms], at: 0 });

/** @throws RangeError if the history was not made by these functions. */
export function standingIn({ states, at }: EditHistory): RewriteTerms {
  const terms = states[at];
  if (!terms) throw new RangeError(`No state ${at} of ${states.length}`);
  return terms;
}

/** What was undone before is given up. A step that changes nothing is none. */
export function addStep(history: EditHistory, terms: RewriteTerms): EditHistory {
  if (JSON.stringify(standingIn(history)) === JSON.stringify(terms)) return history;
  const states = [...history.states.slice(0, history.at + 1), terms];
  return { states, at: states.length - 1 };
}

export const canUndo = ({ at }: EditHistory): boolean => at > 0;
export const canRedo = ({ states, at }: EditHistory): boolean => at < states.length - 1;
export const undo = (history: EditHistory): EditHistory => ({ ...history, at: Math.max(0, history.at - 1) });
export const redo = (history: EditHistory): EditHistory => ({
  ...history,
  at: Math.min(history.states.length - 1, history.at + 1),
});
