import type { Prisma } from "@/generated/prisma/client";
import type { PieceArchive } from "@/lib/archive/piece-archive";
import type { ReadPieceArchive } from "@/lib/archive/read-piece-archive";
import { canonicalJson } from "@/lib/edition/canonical-json";
import { writeEditionContent } from "@/lib/edition/edition-content";
import type { DatedRecord } from "@/lib/room/dated-record";
import { roomMapNames } from "@/lib/room/room-keys";
import { writeAsPeople } from "@/lib/room/write-as-people";
import { now } from "../clock";
import type { Viewer } from "../viewer";
import {
  type ArchivedAs,
  type ArchiveKeys,
  keyFor,
  recordWithOtherKeys,
  withOtherKeys,
} from "./archive-keys";
import { orderedIds } from "./ordered-ids";
import { addPeopleWithoutAccount } from "./people-without-account";

/** Who of the archived people the importer is, or which player they are when they are none of them. */
export type Importer =
  | { readonly is: "p1" | (string & Record<never, never>) }
  | { readonly is: null; readonly role: "pianist" | "soloist" };

/** What one import writes with. */
interface Insertion {
  readonly tx: Prisma.TransactionClient;
  readonly pieceId: string;
  readonly archive: PieceArchive;
  /** Key → id. */
  readonly ids: ArchiveKeys;
  readonly nextId: () => string;
}

/**
 * Writes a checked archive as a new piece, in the order in which its rows refer to one another. Ids are new and keep the
 * order of the keys, so that the same piece is taken along again. Editions come by number: the database itself checks
 * that each follows the one before.
 *
 * @returns the id of the piece.
 */
export async function insertPiece(
  tx: Prisma.TransactionClient,
  viewer: Viewer,
  importer: Importer,
  { archive, manifest, piece }: ReadPieceArchive,
): Promise<string> {
  const ids = orderedIds(now().getTime());
  const nextId = () => ids.next().value;
  const pieceId = nextId();
  const insertion = { tx, pieceId, archive, nextId, ids: giveIds(archive, nextId, { viewer, importer }) };
  await addPiece(insertion, { schema: 1, hash: piece.hash, seal: manifest.seal });
  await addPeople(insertion, viewer, importer);
  await addSources(insertion);
  await addProposals(insertion);
  await addRewrites(insertion);
  await addNeeds(insertion);
  await addEditions(insertion);
  await addRewritesOfEditions(insertion);
  await addOccasions(insertion);
  await addRoom(insertion, viewer);
  await addTrail(insertion);
  return pieceId;
}

function giveIds(
  { piece, proposals, rewriteProposals, rewrites, needs, performances }: PieceArchive,
  nextId: () => string,
  { viewer, importer }: { readonly viewer: Viewer; readonly importer: Importer },
): ArchiveKeys {
  const inOrder = (list: readonly { readonly key: string }[]) =>
    new Map(list.map(({ key }) => [key, nextId()]));
  const people = inOrder(piece.people);
  if (importer.is !== null) people.set(importer.is, viewer.userId);
  return {
    people,
    proposals: inOrder([...proposals, ...rewriteProposals].sort((a, b) => numberIn(a.key) - numberIn(b.key))),
    rewrites: inOrder(rewrites),
    needs: inOrder(needs),
    performances: inOrder(performances),
  };
}

const numberIn = (key: string) => Number(key.slice(key.lastIndexOf("-") + 1));

async function addPiece(
  { tx, pieceId, archive }: Insertion,
  archived: Prisma.InputJsonObject,
): Promise<void> {
  const { people: _p, sources: _s, pageBreaks: _b, createdAt, ...facts } = archive.piece;
  await tx.piece.create({
    data: { ...facts, id: pieceId, createdAt: new Date(createdAt), changedAt: now(), archived },
  });
}

/** Everybody but the importer is a name without an account, who has left: nobody's place is taken. */
async function addPeople(
  { tx, pieceId, archive, ids, nextId }: Insertion,
  viewer: Viewer,
  importer: Importer,
): Promise<void> {
  const { people } = archive.piece;
  const idOf = (key: string) => keyFor(ids.people, key);
  const isMe = (key: string) => key === importer.is;
  await addPeopleWithoutAccount(
    tx,
    people.filter(({ key }) => !isMe(key)).map(({ key, name }) => ({ id: idOf(key), name })),
  );
  await tx.member.createMany({
    data: people.map(({ key, name, role, joinedAt, leftAt, breath }) => {
      const archivedAs: ArchivedAs = { key, name, leftAt, isClaimed: isMe(key) };
      return {
        ...{ id: nextId(), pieceId, userId: idOf(key), role, joinedAt: new Date(joinedAt), archivedAs },
        ...(breath === null ? {} : { breath: { ...breath } }),
        removedAt: isMe(key) ? null : leftAt === null ? now() : new Date(leftAt),
      };
    }),
  });
  if (importer.is !== null) return;
  await tx.member.create({
    data: { id: nextId(), pieceId, userId: viewer.userId, role: importer.role, joinedAt: now() },
  });
}

async function addSources({ tx, pieceId, archive, ids, nextId }: Insertion): Promise<void> {
  const { piece, bytes } = archive;
  for (const { kind, hash, fileName, partRoles, uploadedBy, createdAt } of piece.sources) {
    const file = Buffer.from(bytes.get(hash) ?? []);
    await tx.source.create({
      data: {
        ...{ id: nextId(), pieceId, hash, fileName, partRoles, byteLength: file.byteLength },
        kind: kind === "full score" ? "full_score" : "reduction",
        ...{ uploadedById: keyFor(ids.people, uploadedBy), createdAt: new Date(createdAt) },
        bytes: { create: { bytes: file } },
      },
    });
  }
  await tx.pageBreak.createMany({
    data: piece.pageBreaks.map(({ reader, paper, sourceHash, barIndex, pinnedBy, createdAt, removedAt }) => ({
      ...{ id: nextId(), pieceId, reader, paper, sourceHash, barIndex },
      pinnedById: keyFor(ids.people, pinnedBy),
      ...{ createdAt: new Date(createdAt), removedAt: dateOf(removedAt) },
    })),
  });
}

const dateOf = (moment: string | null) => (moment === null ? null : new Date(moment));

async function addProposals({ tx, pieceId, archive, ids, nextId }: Insertion): Promise<void> {
  const { proposals, rewriteProposals, approvals } = archive;
  const personId = (key: string) => keyFor(ids.people, key);
  const all = [
    ...proposals.map((proposal) => ({ kind: "cut" as const, ...proposal })),
    ...rewriteProposals.map((proposal) => ({ kind: "rewrite" as const, ...proposal, why: null })),
  ];
  await tx.proposal.createMany({
    data: all.map(({ key, kind, number, terms, termsHash, reason, why, state, ...rest }) => ({
      ...{ id: keyFor(ids.proposals, key), pieceId, kind, number, terms, termsHash, reason, state },
      ...(why === null ? {} : { why }),
      ...{ proposedById: personId(rest.proposedBy), createdAt: new Date(rest.createdAt) },
      supersedesId: rest.supersedes === null ? null : keyFor(ids.proposals, rest.supersedes),
    })),
  });
  await tx.answer.createMany({
    data: all.flatMap(({ key, answers }) =>
      answers.map(({ by, answer, reason, termsHash, at }) => ({
        ...{ id: nextId(), proposalId: keyFor(ids.proposals, key), userId: personId(by) },
        ...{ answer, reason, termsHash, at: new Date(at) },
      })),
    ),
  });
  await tx.approval.createMany({
    data: approvals.map(({ by, contentHash, content, at, endedAt }) => ({
      ...{ id: nextId(), pieceId, userId: personId(by), contentHash },
      content: content === null ? null : canonicalJson(content),
      ...{ at: new Date(at), endedAt: dateOf(endedAt) },
    })),
  });
}

const deeds = {
  kept: "kept",
  shared: "shared",
  replaced: "replaced",
  "taken off": "taken_off",
  "brought back": "brought_back",
} as const;

async function addRewrites({ tx, pieceId, archive, ids, nextId }: Insertion): Promise<void> {
  const { rewrites, hints } = archive;
  const personId = (key: string) => keyFor(ids.people, key);
  await tx.rewrite.createMany({
    data: rewrites.map(({ key, number, by, terms, termsHash, sharing, createdAt, ...rest }) => ({
      ...{
        id: keyFor(ids.rewrites, key),
        pieceId,
        number,
        authorId: personId(by),
        terms,
        termsHash,
        sharing,
      },
      createdAt: new Date(createdAt),
      replacesId: rest.replaces === null ? null : keyFor(ids.rewrites, rest.replaces),
      ...{ replacedAt: dateOf(rest.replacedAt), takenOffAt: dateOf(rest.takenOffAt) },
      proposalId: rest.proposal === null ? null : keyFor(ids.proposals, rest.proposal),
    })),
  });
  await tx.rewriteEvent.createMany({
    data: rewrites.flatMap(({ key, events }) =>
      events.map(({ by, what, sharing, reason, at }) => ({
        ...{ id: nextId(), rewriteId: keyFor(ids.rewrites, key), userId: personId(by) },
        ...{ what: deeds[what], sharing, reason, at: new Date(at) },
      })),
    ),
  });
  await tx.cueHint.createMany({
    data: hints.map(({ instrument, text, by, at }) => ({
      ...{ id: nextId(), pieceId, instrument, text, authorId: personId(by), at: new Date(at) },
    })),
  });
}

async function addRewritesOfEditions({ tx, pieceId, archive, ids }: Insertion): Promise<void> {
  const editions = await tx.edition.findMany({ where: { pieceId }, select: { id: true, number: true } });
  const byNumber = new Map(editions.map(({ id, number }) => [String(number), id]));
  await tx.editionRewrite.createMany({
    data: archive.rewrites.flatMap(({ key, editions: numbers }) =>
      numbers.map((number) => ({
        editionId: keyFor(byNumber, String(number)),
        rewriteId: keyFor(ids.rewrites, key),
      })),
    ),
  });
}

async function addNeeds({ tx, pieceId, archive, ids, nextId }: Insertion): Promise<void> {
  const personId = (key: string) => keyFor(ids.people, key);
  await tx.restNeed.createMany({
    data: archive.needs.map(({ key, terms, notedBy, createdAt, changedAt, ...rest }) => ({
      ...{ id: keyFor(ids.needs, key), pieceId, terms, notedById: personId(notedBy) },
      ...{ createdAt: new Date(createdAt), changedAt: new Date(changedAt) },
      releasedById: rest.releasedBy === null ? null : personId(rest.releasedBy),
      ...{ releasedAt: dateOf(rest.releasedAt), removedAt: dateOf(rest.removedAt) },
    })),
  });
  await tx.restNeedEvent.createMany({
    data: archive.needs.flatMap(({ key, events }) =>
      events.map(({ by, what, terms, at }) => ({
        ...{ id: nextId(), needId: keyFor(ids.needs, key), userId: personId(by) },
        what: what === "held again" ? "held_again" : what === "brought back" ? "brought_back" : what,
        ...{ terms, at: new Date(at) },
      })),
    ),
  });
}

async function addEditions({ tx, pieceId, archive, ids, nextId }: Insertion): Promise<void> {
  for (const edition of archive.editions) {
    const { number, hash, previousHash, rendererVersion, frozenAt } = edition;
    await tx.edition.create({
      data: {
        ...{ id: nextId(), pieceId, number, hash, previousHash, rendererVersion },
        ...{ content: writeEditionContent(edition.content), frozenAt: new Date(frozenAt) },
        approvals: {
          create: edition.approvals.map(({ by, name, role, at }) => ({
            ...{ userId: keyFor(ids.people, by), name, role, at: new Date(at) },
          })),
        },
        proposals: {
          create: edition.proposals.map((key) => ({ proposalId: keyFor(ids.proposals, key) })),
        },
      },
    });
  }
}

async function addOccasions({ tx, pieceId, archive, ids }: Insertion): Promise<void> {
  const editions = await tx.edition.findMany({ where: { pieceId }, select: { id: true, number: true } });
  const byNumber = new Map(editions.map(({ id, number }) => [String(number), id]));
  await tx.performance.createMany({
    data: archive.performances.map(({ key, editionNumber, kind, on, sections, loggedBy, ...rest }) => ({
      ...rest,
      ...{ id: keyFor(ids.performances, key), pieceId, editionId: keyFor(byNumber, String(editionNumber)) },
      kind: kind === "run-through" ? "run_through" : kind,
      on: new Date(`${on}T00:00:00Z`),
      ...(sections === null ? {} : { sections }),
      loggedById: keyFor(ids.people, loggedBy),
      ...{ createdAt: new Date(rest.createdAt), changedAt: new Date(rest.changedAt) },
      removedAt: dateOf(rest.removedAt),
    })),
  });
}

/** The room's log anew: each record written by its author at its time. The importer has seen it to its end. */
async function addRoom({ tx, pieceId, archive, ids }: Insertion, { userId }: Viewer): Promise<void> {
  const records = roomMapNames.flatMap((map) =>
    // Map and record belong together in an archive.
    archive.room[map].map(
      ({ at, record }) => ({ map, record: recordWithOtherKeys(record, ids), at }) as DatedRecord,
    ),
  );
  const entries = writeAsPeople(records);
  await tx.roomUpdate.createMany({
    data: entries.map(({ update, userId: by, at }, index) => ({
      ...{ pieceId, sequence: index + 1, epoch: 1, update: Buffer.from(update), userId: by },
      createdAt: new Date(at),
    })),
  });
  await tx.piece.update({ where: { id: pieceId }, data: { roomSequence: entries.length } });
  await tx.roomVisit.create({ data: { pieceId, userId, sequence: entries.length, at: now() } });
}

async function addTrail({ tx, pieceId, archive, ids }: Insertion): Promise<void> {
  await tx.auditEntry.createMany({
    data: archive.trail.map(({ at, by, what, about }) => ({
      ...{ pieceId, userId: by === null ? null : keyFor(ids.people, by), what, at: new Date(at) },
      about: withOtherKeys(about, ids) as Prisma.InputJsonObject,
    })),
  });
}
