import {
  type ArchivedNeed,
  type ArchivedPerformance,
  type ArchivedProposal,
  type ArchivedRewrite,
  type ArchivedRewriteProposal,
  archivedApprovalsSchema,
} from "@/lib/archive/decision-schemas";
import type { PieceArchive, PieceEdition } from "@/lib/archive/piece-archive";
import type { ArchivedRoom } from "@/lib/archive/room-schema";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { cutReasonsSchema } from "@/lib/edition/cut-reasons";
import { cutTermsSchema } from "@/lib/edition/cut-terms";
import { partRolesSchema, readEditionContent } from "@/lib/edition/edition-content";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { sectionTimingsSchema } from "@/lib/edition/section-timings";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { readDatedRecords } from "@/lib/room/read-dated-records";
import { roomMapNames } from "@/lib/room/room-keys";
import { toRestNeedRecord } from "../rests/rest-need-record";
import type { RewriteSharing } from "../rewrites/rewrite-record";
import { type ArchiveKeys, keyFor, recordWithOtherKeys, withOtherKeys } from "./archive-keys";
import { playedMusicXml } from "./played-music-xml";
import { type NamedMember, nameMembers, type WholePiece } from "./read-whole-piece";

/**
 * The rows of a piece as an archive: people, proposals, needs and performances by keys, everything in a fixed order.
 *
 * @throws Error if the rows do not belong together, or a stored source can no longer be read.
 */
export async function toPieceArchive(row: WholePiece): Promise<PieceArchive> {
  const members = nameMembers(row.members);
  const keys = giveKeys(row, members);
  const bytes = bytesOf(row);
  return {
    piece: aboutPiece(row, members, keys),
    bytes,
    proposals: row.proposals
      .filter(({ kind }) => kind === "cut")
      .map((proposal) => toProposal(proposal, keys)),
    rewriteProposals: row.proposals
      .filter(({ kind }) => kind === "rewrite")
      .map((proposal) => toRewriteProposal(proposal, keys)),
    rewrites: row.rewrites.map((rewrite) => toRewrite(rewrite, keys)),
    hints: row.cueHints.map(({ instrument, text, authorId, at }) => ({
      ...{ instrument, text, by: keyFor(keys.people, authorId), at: at.toISOString() },
    })),
    approvals: row.approvals.map(({ userId, contentHash, content, at, endedAt }) => ({
      ...{ by: keyFor(keys.people, userId), contentHash },
      content: content === null ? null : approvedSchema.parse(JSON.parse(content)),
      ...{ at: at.toISOString(), endedAt: iso(endedAt) },
    })),
    needs: row.restNeeds.map((need) => toNeed(need, keys)),
    performances: row.performances.map((performance) => toPerformance(performance, keys)),
    room: await toRoom(row, keys),
    trail: row.auditEntries.map(({ at, userId, what, about }) => ({
      ...{ at: at.toISOString(), by: userId === null ? null : keyFor(keys.people, userId), what },
      about: withOtherKeys(about as ArchiveAbout, keys),
    })),
    editions: row.editions.map((edition) => toEdition(edition, { keys, bytes })),
  };
}

/** As it was frozen: whatever a later schema adds is not added to it. */
const approvedSchema = archivedApprovalsSchema.shape.approvals.element.shape.content;

type ArchiveAbout = PieceArchive["trail"][number]["about"];

const iso = (date: Date | null) => date?.toISOString() ?? null;

function giveKeys(row: WholePiece, members: readonly NamedMember[]): ArchiveKeys {
  const inOrder = (rows: readonly { readonly id: string }[], word: string) =>
    new Map(rows.map(({ id }, index) => [id, `${word}-${index + 1}`]));
  return {
    people: new Map(members.map(({ userId, person }) => [userId, person.key])),
    proposals: inOrder(row.proposals, "proposal"),
    rewrites: inOrder(row.rewrites, "rewrite"),
    needs: inOrder(row.restNeeds, "need"),
    performances: inOrder(row.performances, "performance"),
  };
}

function aboutPiece(
  row: WholePiece,
  members: readonly NamedMember[],
  { people }: ArchiveKeys,
): PieceArchive["piece"] {
  const { title, movement, composer, soloInstrument, branchName, limitSeconds, longTuttiBars } = row;
  return {
    ...{ title, movement, composer, soloInstrument, branchName, limitSeconds, longTuttiBars },
    tempo: tempoTermsSchema.parse(row.tempo),
    createdAt: row.createdAt.toISOString(),
    people: members.map(({ person }) => person),
    sources: row.sources.map(({ kind, hash, fileName, partRoles, uploadedById, createdAt }) => ({
      ...{ kind: kind === "full_score" ? ("full score" as const) : ("solo and reduction" as const) },
      ...{ hash, fileName, partRoles: partRolesSchema.parse(partRoles) },
      ...{ uploadedBy: keyFor(people, uploadedById), createdAt: createdAt.toISOString() },
    })),
    pageBreaks: row.pageBreaks.map(({ reader, paper, sourceHash, barIndex, pinnedById, ...times }) => ({
      ...{ reader, paper, sourceHash, barIndex, pinnedBy: keyFor(people, pinnedById) },
      ...{ createdAt: times.createdAt.toISOString(), removedAt: iso(times.removedAt) },
    })),
  };
}

function bytesOf({ sources }: WholePiece): Map<string, Uint8Array> {
  return new Map(
    sources.map(({ hash, bytes }) => {
      if (!bytes) throw new Error(`the bytes of source ${hash} are missing`);
      return [hash, bytes.bytes];
    }),
  );
}

function toProposal(row: WholePiece["proposals"][number], keys: ArchiveKeys): ArchivedProposal {
  return {
    ...toAsked(row, keys),
    terms: cutTermsSchema.parse(row.terms),
    why: row.why === null ? null : cutReasonsSchema.parse(row.why),
  };
}

function toRewriteProposal(row: WholePiece["proposals"][number], keys: ArchiveKeys): ArchivedRewriteProposal {
  return { ...toAsked(row, keys), terms: rewriteTermsSchema.parse(row.terms) };
}

/** What every proposal has, whatever was proposed. */
function toAsked(
  row: WholePiece["proposals"][number],
  { people, proposals }: ArchiveKeys,
): Omit<ArchivedProposal, "terms" | "why"> {
  const { id, number, termsHash, reason, state, supersedesId } = row;
  return {
    ...{ key: keyFor(proposals, id), number, termsHash, reason, state },
    proposedBy: keyFor(people, row.proposedById),
    createdAt: row.createdAt.toISOString(),
    supersedes: supersedesId === null ? null : keyFor(proposals, supersedesId),
    answers: row.answers.map(({ userId, at, answer, reason: words, termsHash: to }) => ({
      ...{ by: keyFor(people, userId), answer, reason: words, termsHash: to, at: at.toISOString() },
    })),
  };
}

const deeds = {
  kept: "kept",
  shared: "shared",
  replaced: "replaced",
  taken_off: "taken off",
  brought_back: "brought back",
} as const;

/** @throws Error for a version that its author keeps to themselves. */
function sharedAs(sharing: RewriteSharing): "told" | "asked" {
  if (sharing === "only_me") throw new Error("what somebody keeps to themselves is taken along by nobody");
  return sharing;
}

function toRewrite(
  row: WholePiece["rewrites"][number],
  { people, proposals, rewrites }: ArchiveKeys,
): ArchivedRewrite {
  const { id, number, authorId, termsHash, sharing, createdAt, replacesId, proposalId } = row;
  return {
    ...{ key: keyFor(rewrites, id), number, by: keyFor(people, authorId), termsHash },
    terms: rewriteTermsSchema.parse(row.terms),
    ...{ sharing: sharedAs(sharing), createdAt: createdAt.toISOString() },
    // One that nobody else saw is not named.
    replaces: replacesId === null ? null : (rewrites.get(replacesId) ?? null),
    ...{ replacedAt: iso(row.replacedAt), takenOffAt: iso(row.takenOffAt) },
    proposal: proposalId === null ? null : keyFor(proposals, proposalId),
    editions: row.editions.map(({ edition }) => edition.number),
    events: row.events.map((event) => ({
      ...{ by: keyFor(people, event.userId), what: deeds[event.what], sharing: sharedAs(event.sharing) },
      ...{ reason: event.reason, at: event.at.toISOString() },
    })),
  };
}

function toNeed(row: WholePiece["restNeeds"][number], { people, needs }: ArchiveKeys): ArchivedNeed {
  const { id, terms, notedBy, createdAt, changedAt, releasedBy, history, ...times } = toRestNeedRecord(row);
  return {
    ...{ key: keyFor(needs, id), terms, notedBy: keyFor(people, notedBy) },
    ...{ createdAt: createdAt.toISOString(), changedAt: changedAt.toISOString() },
    releasedBy: releasedBy === null ? null : keyFor(people, releasedBy),
    ...{ releasedAt: iso(times.releasedAt), removedAt: iso(times.removedAt) },
    events: history.map(({ userId, what, terms: then, at }) => ({
      ...{ by: keyFor(people, userId), what, terms: then, at: at.toISOString() },
    })),
  };
}

function toPerformance(
  row: WholePiece["performances"][number],
  { people, performances }: ArchiveKeys,
): ArchivedPerformance {
  const { name, startsAt, place, limitSeconds, plannedSeconds, realSeconds, remarks, result } = row;
  return {
    ...{
      key: keyFor(performances, row.id),
      editionNumber: row.edition.number,
      kind: row.kind === "run_through" ? "run-through" : row.kind,
    },
    ...{ name, startsAt, place, limitSeconds, plannedSeconds, realSeconds, remarks, result },
    on: isoDateOf(row.on),
    sections: row.sections === null ? null : sectionTimingsSchema.parse(row.sections),
    loggedBy: keyFor(people, row.loggedById),
    ...{ createdAt: row.createdAt.toISOString(), changedAt: row.changedAt.toISOString() },
    removedAt: iso(row.removedAt),
  };
}

async function toRoom({ roomUpdates }: WholePiece, keys: ArchiveKeys): Promise<ArchivedRoom> {
  const log = roomUpdates.map(({ createdAt, ...entry }) => ({ ...entry, at: createdAt }));
  const dated = await readDatedRecords(log);
  const maps = roomMapNames.map((map) => [
    map,
    dated
      .filter((one) => one.map === map)
      .map(({ record, at }) => ({ at, record: recordWithOtherKeys(record, keys) })),
  ]);
  // That map and record belong together is made sure by `readDatedRecords`.
  return Object.fromEntries(maps) as ArchivedRoom;
}

function toEdition(
  row: WholePiece["editions"][number],
  { keys, bytes }: { readonly keys: ArchiveKeys; readonly bytes: PieceArchive["bytes"] },
): PieceEdition {
  const { number, hash, previousHash, rendererVersion } = row;
  const content = readEditionContent(row.content);
  const frozenAt = row.frozenAt.toISOString();
  const approvals = row.approvals.map(({ userId, name, role, at }) => {
    if (role !== "pianist" && role !== "soloist") throw new Error(`an edition was approved by a ${role}`);
    return { by: keyFor(keys.people, userId), name, role, at: at.toISOString(), hash };
  });
  return {
    ...{ number, hash, previousHash, frozenAt, rendererVersion, content },
    approvals: approvals.sort((a, b) => compareText(a.at, b.at) || compareText(a.by, b.by)),
    proposals: row.proposals
      .map(({ proposalId }) => keyFor(keys.proposals, proposalId))
      .sort((a, b) => numberIn(a) - numberIn(b)),
    musicXml: playedMusicXml({ number, hash, frozenAt, content }, bytes),
  };
}

const compareText = (a: string, b: string) => Number(a > b) - Number(a < b);
const numberIn = (key: string) => Number(key.slice(key.lastIndexOf("-") + 1));
