import type { Prisma } from "@/generated/prisma/client";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { namePiece, pieceNameParts } from "../performances/list-performances";
import { performanceParts, toKind, toPerformanceRecord } from "../performances/performance-record";
import { openEdition, planOf } from "../performances/plan-edition";
import { ownPages } from "../readings/reading-cover";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import type { OwnProgramme, ProgrammeEntry, ProgrammeHead, ProgrammeRecord } from "./programme-record";

/** What is read of a programme; of the pieces only the viewer's own membership. */
const partsFor = ({ userId }: Viewer) =>
  ({
    owner: { select: { name: true } },
    items: {
      orderBy: { place: "asc" },
      include: {
        performance: {
          include: {
            ...performanceParts,
            piece: {
              select: {
                ...pieceNameParts,
                deletedAt: true,
                members: { where: { userId, removedAt: null }, select: { role: true } },
              },
            },
          },
        },
      },
    },
  }) as const satisfies Prisma.ProgrammeInclude;

type ProgrammeRow = Prisma.ProgrammeGetPayload<{ include: ReturnType<typeof partsFor> }>;
type ItemRow = ProgrammeRow["items"][number];

/**
 * A programme as the viewer may see it. Who drew it up sees all of it, but of a piece that they do not belong to (any
 * more) only that there is one. A member of a piece in it sees when and where, and the entries of their own pieces.
 *
 * @returns "not-found" alike for one that does not exist and for one without a piece of the viewer's.
 */
export async function readProgramme(
  viewer: Viewer,
  programmeId: string,
): Promise<Result<ProgrammeRecord, StoreProblem>> {
  const row = await database().programme.findUnique({
    where: { id: programmeId },
    include: partsFor(viewer),
  });
  const seen = row && (await toProgramme(row, viewer));
  return seen ? success(seen) : failure({ kind: "not-found" });
}

/** The programmes the viewer drew up, and those with a piece of theirs in it; the latest first. */
export async function listMyProgrammes(viewer: Viewer): Promise<ProgrammeRecord[]> {
  const member = { userId: viewer.userId, removedAt: null };
  const rows = await database().programme.findMany({
    where: {
      OR: [
        { ownerId: viewer.userId },
        { removedAt: null, items: { some: { performance: { piece: { members: { some: member } } } } } },
      ],
    },
    orderBy: [{ on: "desc" }, { createdAt: "desc" }],
    include: partsFor(viewer),
  });
  const seen = await Promise.all(rows.map((row) => toProgramme(row, viewer)));
  return seen.filter((programme) => programme !== null);
}

async function toProgramme(row: ProgrammeRow, viewer: Viewer): Promise<ProgrammeRecord | null> {
  const isMine = row.ownerId === viewer.userId;
  const visible = row.items.filter(
    (item) => isMine || (isReadable(item) && item.performance?.removedAt === null),
  );
  if (!isMine && (row.removedAt !== null || visible.length === 0)) return null;
  const entries = await Promise.all(visible.map(toEntry));
  return { ...toHead(row, isMine), own: isMine ? toOwn(row) : null, entries };
}

function isReadable({ performance }: ItemRow): boolean {
  const [member] = performance?.piece.members ?? [];
  return (
    member !== undefined && performance?.piece.deletedAt === null && may(member.role, "read-performances")
  );
}

async function toEntry(item: ItemRow): Promise<ProgrammeEntry> {
  const { id: itemId, gapSeconds, performance } = item;
  if (!performance) {
    const { title, plannedSeconds, realSeconds } = item;
    return { itemId, gapSeconds, kind: "words", title: title ?? "", plannedSeconds, realSeconds };
  }
  const [member] = performance.piece.members;
  if (!isReadable(item) || !member) return { itemId, gapSeconds, kind: "another piece" };
  const record = { ...toPerformanceRecord(performance), pieceTitle: namePiece(performance.piece) };
  const edition = await openEdition(record.pieceId, record.editionNumber);
  if (!edition.ok) throw new Error(`performance ${record.id} is of an edition that is not there`);
  const { seconds, low, high } = planOf(edition.value);
  const mayLog = may(member.role, "log-performance");
  return {
    ...{ itemId, gapSeconds, kind: "performance", performance: record, mayLog },
    reads: ownPages(member.role, edition.value.content),
    expected: { seconds, low, high },
  };
}

function toHead(row: ProgrammeRow, isMine: boolean): ProgrammeHead {
  const { id, name, startsAt, place } = row;
  return { id, isMine, ownerName: row.owner.name, name, on: isoDateOf(row.on), startsAt, place };
}

function toOwn(row: ProgrammeRow): OwnProgramme {
  const { limitSeconds, stopsBetween, remarks, revision } = row;
  return {
    ...{ kind: toKind(row.kind), limitSeconds, stopsBetween, remarks, revision },
    changedAt: row.changedAt.toISOString(),
    isRemoved: row.removedAt !== null,
  };
}
