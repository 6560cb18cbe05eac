import type { Prisma } from "@/generated/prisma/client";
import { encodeWhole } from "@/lib/room/merge-updates";
import { database } from "../database";
import { mergeRoomLog } from "./merge-room-log";
import { tryLockRoom } from "./room-lock";

/** How far a snapshot has come, in this order. */
export const snapshotSteps = ["locked", "read", "merged", "written", "committed"] as const;

export type SnapshotStep = (typeof snapshotSteps)[number];

export type SnapshotOutcome =
  /** There is a snapshot of the entries up to and with `sequence` now. */
  | { readonly kind: "taken"; readonly sequence: number }
  /** The one there is, of the entries up to `sequence`, is recent enough. */
  | { readonly kind: "recent"; readonly sequence: number }
  /** Another is being taken this moment, or the room is being started anew. */
  | { readonly kind: "busy" }
  | { readonly kind: "no-such-piece" };

export interface SnapshotOptions {
  /** How many entries there must be since the last snapshot. */
  readonly least?: number;
  /** Whether the last one is of no use, however recent. */
  readonly isRenewal?: boolean;
  /** Hears of each step once it is done; what it throws ends the snapshot there, as a crash would. */
  readonly onStep?: (step: SnapshotStep) => void | Promise<void>;
}

/** A very long log takes its time; the connection that reads it is the only one that waits. */
const limits = { maxWait: 20_000, timeout: 120_000 };

/**
 * Makes a snapshot of a room from the stored rows of its epoch, never from what a server holds in memory or from
 * another snapshot, in one transaction under the room's lock. It stands for exactly the rows that were merged.
 * The log stays as it is, and is written to meanwhile without waiting.
 *
 * @throws Error if the log is not whole, or when the database does not answer: nothing is changed then.
 */
export async function takeRoomSnapshot(
  pieceId: string,
  { least = 1, isRenewal = false, onStep = () => {} }: SnapshotOptions = {},
): Promise<SnapshotOutcome> {
  const outcome = await database().$transaction(async (tx): Promise<SnapshotOutcome> => {
    if (!(await tryLockRoom(tx, pieceId))) return { kind: "busy" };
    await onStep("locked");
    const head = await readHead(tx, pieceId);
    if (head === null) return { kind: "no-such-piece" };
    if (!isRenewal && head.sequence - head.merged < least) return { kind: "recent", sequence: head.merged };
    const { doc, sequence } = await mergeRoomLog(tx, pieceId, head.epoch);
    if (sequence < head.sequence) throw new Error(`the log ends at ${sequence} and not at ${head.sequence}`);
    await onStep("read");
    const state = encodeWhole(doc);
    await onStep("merged");
    await write(tx, { pieceId, epoch: head.epoch, sequence, state });
    await onStep("written");
    return { kind: "taken", sequence };
  }, limits);
  if (outcome.kind === "taken") await onStep("committed");
  return outcome;
}

interface Head {
  readonly epoch: number;
  readonly sequence: number;
  /** Where the last snapshot ends; where the epoch began when there is none. */
  readonly merged: number;
}

/** The epoch and its snapshot stay what they are while the lock is held; the log may go on. */
async function readHead(tx: Prisma.TransactionClient, pieceId: string): Promise<Head | null> {
  const [head] = await tx.$queryRaw<Head[]>`
    SELECT piece."roomEpoch" AS "epoch", piece."roomSequence" AS "sequence",
      COALESCE(snapshot."sequence", (
        SELECT max("sequence") FROM "RoomUpdate" AS entry
        WHERE entry."pieceId" = piece."id" AND entry."epoch" < piece."roomEpoch"
      ), 0) AS "merged"
    FROM "Piece" AS piece
    LEFT JOIN "RoomSnapshot" AS snapshot
      ON snapshot."pieceId" = piece."id" AND snapshot."epoch" = piece."roomEpoch"
    WHERE piece."id" = ${pieceId}`;
  return head ?? null;
}

interface NewSnapshot {
  readonly pieceId: string;
  readonly epoch: number;
  readonly sequence: number;
  readonly state: Uint8Array;
}

/** Whatever was kept before stands for fewer entries, or for none that the log has. */
async function write(tx: Prisma.TransactionClient, { pieceId, epoch, sequence, state }: NewSnapshot) {
  await tx.$executeRaw`
    INSERT INTO "RoomSnapshot" ("pieceId", "epoch", "sequence", "state")
    VALUES (${pieceId}, ${epoch}, ${sequence}, ${Buffer.from(state)})
    ON CONFLICT ("pieceId", "epoch") DO UPDATE
      SET "sequence" = EXCLUDED."sequence", "state" = EXCLUDED."state", "createdAt" = now()`;
}
