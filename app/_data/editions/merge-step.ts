import type { DeskCut } from "@/app/_data/desk/desk";
import { applyChanges } from "@/lib/edition/apply-changes";
import type { CutTerms } from "@/lib/edition/cut-terms";
import type { EditionChange } from "@/lib/edition/edition-change";
import { hashTerms } from "@/lib/edition/hash-terms";
import { may } from "@/lib/store/who-may";
import type { About } from "./edition-sides";
import type { MergeStep } from "./merge-view";

/** What is to be sent so that a change of the other version is made, or asked for, here; null where nobody can send it. */
export function findStep(about: About, change: EditionChange): MergeStep | null {
  const { working, desk } = about;
  if (change.kind === "cut") {
    const { before, after } = change;
    const agreed = before && findAgreed(desk.cuts, before);
    if (after === null) return agreed ? { kind: "reopen", proposalId: agreed.id } : null;
    return proposeStep(after, agreed ? [agreed] : []);
  }
  if (change.kind === "rewrite") return findRewriteStep(about, change);
  const applied = applyChanges(working.content, [change]);
  if (!applied.ok) return null;
  switch (change.kind) {
    case "tempo":
    case "timing":
    case "tempi":
    case "timings":
    case "allowance":
      return { kind: "set tempi", settings: applied.value.tempo };
    case "part":
      return { kind: "set parts", partRoles: applied.value.partRoles };
    default:
      return null;
  }
}

/** What the pianist sends; nobody else says what is played instead of the print. */
function findRewriteStep(
  { piece, rewrites }: About,
  { before, after }: Extract<EditionChange, { kind: "rewrite" }>,
): MergeStep | null {
  if (!may(piece.myRole, "rewrite")) return null;
  const hash = before && hashTerms(before);
  const mine = rewrites.find(({ stands, termsHash }) => stands && termsHash === hash) ?? null;
  if (after) return { kind: "ask about rewrite", terms: after, replaces: mine?.id ?? null };
  return mine && { kind: "take off rewrite", rewriteId: mine.id };
}

/** A cut as a proposal of its own, or in the place of the one agreed cut that it would replace; null for several. */
export function proposeStep({ from, to }: CutTerms, inTheWay: readonly DeskCut[]): MergeStep | null {
  const [only, ...others] = inTheWay;
  if (others.length > 0) return null;
  return only ? { kind: "counter-propose", proposalId: only.id, from, to } : { kind: "propose", from, to };
}

/** The agreed proposal of exactly these terms. */
export function findAgreed(cuts: readonly DeskCut[], terms: CutTerms): DeskCut | null {
  const hash = hashTerms(terms);
  return cuts.find(({ state, termsHash }) => state === "agreed" && termsHash === hash) ?? null;
}

/** Said of a cut or a rewrite that was put forward here already in exactly these terms. */
export function sayWaiting(
  { desk, rewrites }: Pick<About, "desk" | "rewrites">,
  change: EditionChange,
): string | null {
  if (change.kind === "rewrite" && change.after !== null) {
    const asked = hashTerms(change.after);
    const same = rewrites.find(
      ({ termsHash, proposal }) => termsHash === asked && proposal?.state === "open",
    );
    return same ? `Rewrite ${same.number} is put forward here and waits for the soloist.` : null;
  }
  if (change.kind !== "cut" || change.after === null) return null;
  const hash = hashTerms(change.after);
  const open = desk.cuts.find(({ state, termsHash }) => state === "open" && termsHash === hash);
  if (!open) return null;
  return open.waitsForMe
    ? `Cut ${open.number} is put forward here and waits for you.`
    : `Cut ${open.number} is put forward here and waits for an answer.`;
}
