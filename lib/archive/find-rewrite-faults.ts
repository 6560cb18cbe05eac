import { hashTerms } from "@/lib/edition/hash-terms";
import { sharesBars } from "@/lib/edition/pair-marks";
import type { ArchivedRewrite, ArchivedRewriteProposal } from "./decision-schemas";
import type { PieceArchive } from "./piece-archive";

/**
 * Versions of rewrites that are not what their hash or their proposal says, that stand in the same bars, or that went into an
 * edition without them; open and agreed questions about nothing.
 *
 * @returns a sentence each, with the key.
 */
export function findRewriteFaults({ rewriteProposals, rewrites, editions }: PieceArchive): string[] {
  const byKey = new Map(rewriteProposals.map((proposal) => [proposal.key, proposal]));
  const asked = new Set(rewrites.flatMap(({ proposal }) => proposal ?? []));
  const standing = rewrites.filter((rewrite) => isStanding(rewrite, byKey));
  return [
    ...rewrites.flatMap((rewrite) => findVersionFaults(rewrite, byKey, editions)),
    ...findTwice(rewrites.flatMap(({ proposal }) => proposal ?? [])).map(
      (key) => `rewrites.json: two versions say that ${key} is about them.`,
    ),
    ...rewriteProposals
      .filter(({ key, state }) => (state === "open" || state === "agreed") && !asked.has(key))
      .map(({ key }) => `rewrites.json: ${key} is about no version of a rewrite.`),
    ...standing
      .filter((one, index) => standing.slice(0, index).some((other) => sharesBars(one.terms, other.terms)))
      .map(({ key }) => `rewrites.json: ${key} stands in bars in which another one stands.`),
  ];
}

function findVersionFaults(
  { key, number, terms, termsHash, sharing, proposal, editions: frozenIn }: ArchivedRewrite,
  byKey: ReadonlyMap<string, ArchivedRewriteProposal>,
  editions: PieceArchive["editions"],
): string[] {
  const about = proposal === null ? null : byKey.get(proposal);
  const isAbout = about && about.termsHash === termsHash && about.number === number;
  const without = frozenIn.filter((edition) => {
    const content = editions.find((one) => one.number === edition)?.content;
    return !content?.rewrites.some((frozen) => hashTerms(frozen) === termsHash);
  });
  return [
    ...(hashTerms(terms) === termsHash ? [] : [`rewrites.json: ${key} has other notes than its hash says.`]),
    ...((about === null ? sharing === "asked" : !isAbout)
      ? [`rewrites.json: ${key} is not what the other player was asked about.`]
      : []),
    ...without.map((edition) => `rewrites.json: ${key} is not in edition № ${edition}, which it names.`),
  ];
}

function isStanding(
  { sharing, replacedAt, takenOffAt, proposal }: ArchivedRewrite,
  byKey: ReadonlyMap<string, ArchivedRewriteProposal>,
): boolean {
  if (replacedAt !== null || takenOffAt !== null) return false;
  return sharing === "told" || (proposal !== null && byKey.get(proposal)?.state === "agreed");
}

const findTwice = (keys: readonly string[]) => keys.filter((key, index) => keys.indexOf(key) !== index);
