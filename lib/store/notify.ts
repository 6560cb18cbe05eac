import type { Database } from "./database";

/** Messages between processes, over Postgres NOTIFY; each payload is JSON, below Postgres's 8,000 bytes. */
export interface Notifications {
  /** Something of a piece outside its shared document changed. */
  piece_changed: { pieceId: string; what: PieceChange };
  /** An update was added to a room's log. `node` is the process that added it. */
  room_appended: { pieceId: string; sequence: number; node: string };
  /** The person's sessions are over; without `tokenHash` all of them. */
  session_ended: { userId: string; tokenHash?: string };
  /** The person no longer belongs to the piece. */
  member_removed: { pieceId: string; userId: string };
  /** The piece's room begins anew with this epoch; documents of an earlier one are over. */
  room_started_anew: { pieceId: string; epoch: number };
}

export type PieceChange =
  | "proposals"
  | "rewrites"
  | "hints"
  | "approvals"
  | "editions"
  | "settings"
  | "members"
  | "performances"
  | "sources"
  | "rests";

/** Sends a notification that goes out when the transaction of `db` commits, and not at all when it does not. */
export async function notify<C extends keyof Notifications>(
  db: Database,
  channel: C,
  payload: Notifications[C],
): Promise<void> {
  await db.$executeRaw`SELECT pg_notify(${channel}, ${JSON.stringify(payload)})`;
}
