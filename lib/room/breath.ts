import type { Position } from "@/lib/score/position";

/** A breath mark of the solo part. */
export interface Breath {
  readonly id: string;
  readonly authorId: string;
  readonly at: Position;
}
