import { roomMapNames } from "@/lib/room/room-keys";
import type { PieceArchive } from "./piece-archive";

/** One mention of a person, a proposal, a need or a performance by its key. */
interface Mention {
  readonly file: string;
  readonly key: string;
}

/**
 * What names somebody or something that is not in the archive, and what has the key of another.
 *
 * @returns a sentence each, with the file and the key.
 */
export function findKeyFaults(archive: PieceArchive): string[] {
  const lists = [
    ["piece.json", "person", archive.piece.people],
    ["proposals.json", "proposal", archive.proposals],
    // Keys of proposals are counted through both files.
    ["rewrites.json", "proposal", archive.rewriteProposals],
    ["rewrites.json", "rewrite", archive.rewrites],
    ["rest-needs.json", "need", archive.needs],
    ["performances.json", "performance", archive.performances],
  ] as const;
  const known = new Set(lists.flatMap(([, , list]) => list.map(({ key }) => key)));
  return [
    ...lists.flatMap(([file, what, list]) =>
      findRepeated(list.map(({ key }) => key)).map((key) => `${file} has two of the ${what} ${key}.`),
    ),
    ...listMentions(archive)
      .filter(({ key }) => !known.has(key))
      .map(({ file, key }) => `${file} speaks of ${key}, who or which is not in this archive.`),
    ...findRepeated([...archive.proposals, ...archive.rewriteProposals].map(({ key }) => key)).map(
      (key) => `Two proposals are called ${key}.`,
    ),
    ...findLateReplacements("proposals.json", archive.proposals, ({ supersedes }) => supersedes),
    ...findLateReplacements("rewrites.json", archive.rewriteProposals, ({ supersedes }) => supersedes),
    ...findLateReplacements("rewrites.json", archive.rewrites, ({ replaces }) => replaces),
  ];
}

function findRepeated(keys: readonly string[]): string[] {
  return keys.filter((key, index) => keys.indexOf(key) !== index);
}

/** A proposal or a version can only take the place of an earlier one. */
function findLateReplacements<One extends { readonly key: string }>(
  file: string,
  list: readonly One[],
  replacedBy: (one: One) => string | null,
): string[] {
  const seen = new Set<string>();
  return list.flatMap((one) => {
    const replaced = replacedBy(one);
    const isLate = replaced !== null && !seen.has(replaced);
    seen.add(one.key);
    return isLate
      ? [`${file}: ${one.key} takes the place of ${replaced}, which does not come before it.`]
      : [];
  });
}

function* keysIn(archive: PieceArchive): Generator<Mention> {
  const { piece, proposals, approvals, needs, performances, editions, trail } = archive;
  for (const { uploadedBy } of piece.sources) yield { file: "piece.json", key: uploadedBy };
  for (const { pinnedBy } of piece.pageBreaks) yield { file: "piece.json", key: pinnedBy };
  for (const { proposedBy, supersedes, answers } of proposals) {
    yield { file: "proposals.json", key: proposedBy };
    if (supersedes !== null) yield { file: "proposals.json", key: supersedes };
    for (const { by } of answers) yield { file: "proposals.json", key: by };
  }
  yield* keysOfRewrites(archive);
  for (const { by } of archive.hints) yield { file: "cue-hints.json", key: by };
  for (const { by } of approvals) yield { file: "approvals.json", key: by };
  for (const { notedBy, releasedBy, events } of needs) {
    yield { file: "rest-needs.json", key: notedBy };
    if (releasedBy !== null) yield { file: "rest-needs.json", key: releasedBy };
    for (const { by } of events) yield { file: "rest-needs.json", key: by };
  }
  for (const { loggedBy } of performances) yield { file: "performances.json", key: loggedBy };
  for (const edition of editions) {
    const file = `editions/${edition.number}/record.json`;
    for (const { by } of edition.approvals) yield { file, key: by };
    for (const key of edition.proposals) yield { file, key };
  }
  for (const { by, about } of trail) {
    if (by !== null) yield { file: "trail.json", key: by };
    for (const key of findIds(about)) yield { file: "trail.json", key };
  }
  for (const map of roomMapNames)
    for (const { record } of archive.room[map])
      for (const key of findRoomKeys(record)) yield { file: "room.json", key };
}

function* keysOfRewrites({ rewriteProposals, rewrites }: PieceArchive): Generator<Mention> {
  const file = "rewrites.json";
  for (const { proposedBy, supersedes, answers } of rewriteProposals) {
    yield { file, key: proposedBy };
    if (supersedes !== null) yield { file, key: supersedes };
    for (const { by } of answers) yield { file, key: by };
  }
  for (const { by, replaces, proposal, events } of rewrites) {
    yield { file, key: by };
    if (replaces !== null) yield { file, key: replaces };
    if (proposal !== null) yield { file, key: proposal };
    for (const event of events) yield { file, key: event.by };
  }
}

const listMentions = (archive: PieceArchive): Mention[] => [...keysIn(archive)];

/** What stands in the fields of an entry of the trail that name something by an id. */
function findIds(about: Readonly<Record<string, unknown>>): string[] {
  return Object.entries(about).flatMap(([name, value]) =>
    name.endsWith("Id") && typeof value === "string" ? [value] : [],
  );
}

/** Who wrote a record of the room, and which proposal it is about. */
function findRoomKeys(record: unknown): string[] {
  const { authorId, byId, about } = record as {
    authorId?: string;
    byId?: string;
    about?: { proposalId?: string };
  };
  return [authorId, byId, about?.proposalId].filter((key) => key !== undefined);
}
