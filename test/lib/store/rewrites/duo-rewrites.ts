import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import type { RewriteRecord, RewriteSharing } from "@/lib/store/rewrites/rewrite-record";
import { type Duo, type Person, rewriteOf, valued } from "../duo";

type Step = Parameters<typeof rewriteOf>[3];

interface Kept {
  readonly to?: number;
  readonly step?: Step;
  readonly replaces?: string;
  readonly reason?: string;
}

/** A rewrite of the pianist's, from one bar on, by index. */
export async function kept(
  duo: Duo,
  sharing: RewriteSharing,
  from: number,
  { to = from, step = "E", replaces, reason = "" }: Kept = {},
): Promise<RewriteRecord> {
  const made = { ...rewriteOf(duo, from, to, step), sharing, replaces: replaces ?? null, reason };
  return valued(await keepRewrite(duo.pianist, duo.pieceId, made));
}

/** The proposal that asks about a rewrite. */
export function asking({ proposal, number }: RewriteRecord) {
  if (!proposal) throw new Error(`nobody was asked about rewrite ${number}`);
  return proposal;
}

/** The soloist's yes to exactly these notes. */
export function yesTo(duo: Duo, rewrite: RewriteRecord) {
  const { id: proposalId } = asking(rewrite);
  return answerProposal(duo.soloist, duo.pieceId, {
    ...{ proposalId, answer: "agree", termsHash: rewrite.termsHash },
  });
}

export async function agreed(duo: Duo, from: number, more: Kept = {}): Promise<RewriteRecord> {
  const asked = await kept(duo, "asked", from, more);
  valued(await yesTo(duo, asked));
  return asked;
}

/** What the working edition has, in the order of the page. */
export async function standing(duo: Duo): Promise<readonly RewriteTerms[]> {
  return valued(await readWorkingEdition(duo.soloist, duo.pieceId)).content.rewrites;
}

/** What somebody sees: "1 told", with a star where it stands. */
export async function seenBy(duo: Duo, person: Person): Promise<string[]> {
  const records = valued(await listRewrites(person, duo.pieceId));
  return records.map(({ number, sharing, stands }) => `${number} ${sharing}${stands ? "*" : ""}`);
}

/** Both players freeze what stands. */
export async function frozen(duo: Duo): Promise<EditionRecord> {
  const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
  valued(await approveEdition(duo.pianist, duo.pieceId, { hash }));
  const { frozen: edition } = valued(await approveEdition(duo.soloist, duo.pieceId, { hash }));
  if (!edition) throw new Error("the second yes freezes");
  return edition;
}
