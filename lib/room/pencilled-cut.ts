import type { Position } from "@/lib/score/position";

/** One version of a pencilled cut. */
export interface PencilledVersion {
  readonly id: string;
  readonly authorId: string;
  /** ISO 8601, UTC, by the writer's clock. */
  readonly createdAt: string;
  readonly from: Position;
  readonly to: Position;
  readonly isRubbedOut: boolean;
}

/** A cut that a player pencilled in: an idea that both see, before anybody puts it forward. */
export interface PencilledCut {
  readonly cutId: string;
  /** What stands: one version, or several that were written at the same time and differ. Never none. */
  readonly versions: readonly PencilledVersion[];
}

/** Whether two wrote this cut at the same time, and differently. Writing over all versions settles it. */
export function isDisputed(cut: PencilledCut): boolean {
  return cut.versions.length > 1;
}
