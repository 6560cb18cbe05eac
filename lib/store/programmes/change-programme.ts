import { z } from "zod";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { realSecondsSchema } from "../performances/occasion-schema";
import {
  performanceParts,
  toPerformanceRecord,
  toStoredDate,
  toStoredKind,
} from "../performances/performance-record";
import { openEdition, planOf } from "../performances/plan-edition";
import { rewritePerformance } from "../performances/rewrite-performance";
import { titleSchema } from "../pieces/create-piece";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { headShape } from "./draw-up-programme";
import { inProgramme, noteProgramme, type ProgrammeWork, type StoredProgramme } from "./in-programme";

const idSchema = z.string().min(1).max(100);
const gapSeconds = z
  .int()
  .min(0)
  .max(2 * 60 * 60, "A gap lasts at most two hours.");

const itemSchema = z.discriminatedUnion("kind", [
  /** An entry that stands there already, a performance or a piece that is not told. */
  z.object({ kind: z.literal("kept"), itemId: idSchema, gapSeconds }),
  /** A performance that was logged before. */
  z.object({ kind: z.literal("performance"), performanceId: idSchema, gapSeconds }),
  /** A piece, whose performance is logged by this. */
  z.object({ kind: z.literal("piece"), pieceId: idSchema, editionNumber: z.int().min(1), gapSeconds }),
  z.object({
    kind: z.literal("words"),
    title: titleSchema.pipe(z.string().min(1, "Write what is played.")),
    plannedSeconds: realSecondsSchema,
    realSeconds: realSecondsSchema,
    gapSeconds,
  }),
]);

const changeSchema = z.object({
  ...headShape,
  programmeId: idSchema,
  /** Of what was on the screen. */
  revision: z.int().min(0),
  items: z.array(itemSchema).max(60, "A programme has at most 60 entries."),
});

type Change = z.infer<typeof changeSchema>;
type Item = Change["items"][number];

/** An entry as it is stored. */
interface StoredItem {
  readonly id?: string;
  readonly performanceId: string | null;
  readonly title: string | null;
  readonly plannedSeconds: number | null;
  readonly realSeconds: number | null;
  readonly gapSeconds: number;
}

/**
 * Writes a programme anew, its entries in their order. A piece that is put on it gets a performance logged; the
 * performances that stood on the programme's day and place move with it. What stood there stays in the trail.
 */
export async function changeProgramme(viewer: Viewer, input: unknown): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(changeSchema, input);
  if (!asked.ok) return asked;
  const change = asked.value;
  return inProgramme(viewer, change.programmeId, async (work) => {
    const { tx, before } = work;
    if (before.revision !== change.revision) return failure(changedMeanwhile);
    await holdPieces(work, change);
    const items: StoredItem[] = [];
    for (const item of change.items) {
      const stored = await toStored(work, change, item);
      if (!stored.ok) return stored;
      items.push(stored.value);
    }
    if (hasTwice(items)) return failure(onlyOnce);
    await noteProgramme(work, "programme changed");
    const { programmeId, revision: _seen, items: _items, kind, on, ...head } = change;
    await tx.programmeItem.deleteMany({ where: { programmeId } });
    await tx.programme.update({
      where: { id: programmeId },
      data: { ...head, kind: toStoredKind(kind), on: toStoredDate(on) },
    });
    await tx.programmeItem.createMany({
      data: items.map((item, place) => ({ ...item, programmeId, place })),
    });
    await movePerformances(work, change, items);
    return success(null);
  });
}

const changedMeanwhile: StoreProblem = {
  kind: "stale-terms",
  sentence: "This programme was changed on another device meanwhile. Look at what stands there now.",
};

const onlyOnce: StoreProblem = {
  kind: "conflict",
  sentence: "The same performance stands in the programme twice.",
};

function hasTwice(items: readonly StoredItem[]): boolean {
  const ids = items.flatMap(({ performanceId }) => performanceId ?? []);
  return new Set(ids).size < ids.length;
}

/** Every piece that is changed by this is held, always in the same order, so that no two changes wait for each other. */
async function holdPieces({ tx, before, viewer }: ProgrammeWork, change: Change): Promise<void> {
  const named = change.items.flatMap((item) => (item.kind === "piece" ? item.pieceId : []));
  const performances = before.items.flatMap(({ performanceId }) => performanceId ?? []);
  await tx.$queryRaw`
    SELECT 1 AS held FROM "Piece" WHERE "id" IN (
      SELECT "pieceId" FROM "Member"
      WHERE "userId" = ${viewer.userId} AND "removedAt" IS NULL AND (
        "pieceId" = ANY(${named}) OR
        "pieceId" IN (SELECT "pieceId" FROM "Performance" WHERE "id" = ANY(${performances}))
      )
    ) ORDER BY "id" FOR NO KEY UPDATE`;
}

async function toStored(
  work: ProgrammeWork,
  change: Change,
  item: Item,
): Promise<Result<StoredItem, StoreProblem>> {
  const { gapSeconds } = item;
  const plain = { title: null, plannedSeconds: null, realSeconds: null, gapSeconds };
  switch (item.kind) {
    case "words": {
      const { title, plannedSeconds, realSeconds } = item;
      return success({ performanceId: null, title, plannedSeconds, realSeconds, gapSeconds });
    }
    case "kept": {
      const stood = work.before.items.find(({ id }) => id === item.itemId);
      if (!stood) return failure({ kind: "not-found" });
      const { id, performanceId, title, plannedSeconds, realSeconds } = stood;
      return success({ id, performanceId, title, plannedSeconds, realSeconds, gapSeconds });
    }
    case "performance": {
      const found = await work.tx.performance.findUnique({ where: { id: item.performanceId } });
      const membership =
        found && (await readMembership(work.viewer, found.pieceId, "read-performances", work.tx));
      if (!found || !membership?.ok) return failure({ kind: "not-found" });
      return success({ ...plain, performanceId: found.id });
    }
    case "piece": {
      const logged = await logPiece(work, change, item);
      return logged.ok ? success({ ...plain, performanceId: logged.value }) : logged;
    }
  }
}

/** The performance of a piece that is put on the programme. */
async function logPiece(
  { tx, viewer }: ProgrammeWork,
  change: Change,
  { pieceId, editionNumber }: Extract<Item, { kind: "piece" }>,
): Promise<Result<string, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "log-performance", tx);
  if (!membership.ok) return membership;
  const edition = await openEdition(pieceId, editionNumber, tx);
  if (!edition.ok) return edition;
  const { name, kind, on, place } = change;
  const row = await tx.performance.create({
    data: {
      ...{ pieceId, name, place, kind: toStoredKind(kind), on: toStoredDate(on), remarks: "" },
      ...{ editionId: edition.value.id, plannedSeconds: planOf(edition.value).seconds },
      ...{ loggedById: viewer.userId, createdAt: now(), changedAt: now() },
    },
  });
  const about = { performanceId: row.id, editionNumber };
  const work: PieceChangeWork = { tx, membership: membership.value };
  await noteChange(work, { what: "performance logged", about, change: "performances" });
  return success(row.id);
}

/** Performances that stood on the programme's day and place go where the programme goes, as far as the viewer logs them. */
async function movePerformances(
  { tx, before, viewer }: ProgrammeWork,
  change: Change,
  items: readonly StoredItem[],
): Promise<void> {
  if (isSamePlace(before, change)) return;
  const ids = items.flatMap(({ performanceId }) => performanceId ?? []);
  const rows = await tx.performance.findMany({
    where: { id: { in: ids }, on: before.on, place: before.place },
    include: performanceParts,
  });
  for (const row of rows) {
    const membership = await readMembership(viewer, row.pieceId, "log-performance", tx);
    if (!membership.ok) continue;
    const work: PieceChangeWork = { tx, membership: membership.value };
    const data = { on: toStoredDate(change.on), place: change.place };
    await rewritePerformance(work, toPerformanceRecord(row), data, "performance changed");
  }
}

function isSamePlace(before: StoredProgramme, { on, place }: Change): boolean {
  return isoDateOf(before.on) === on && before.place === place;
}
