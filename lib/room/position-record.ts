import { z } from "zod";
import type { Position } from "@/lib/score/position";
import { readQuarters, writeQuarters } from "@/lib/score/quarters";

/** The one way to write an offset: reduced and not negative. */
function isOffsetText(text: string): boolean {
  const offset = readQuarters(text);
  return offset !== null && offset.num >= 0 && writeQuarters(offset) === text;
}

/** A `Position` as a room stores it. */
export const positionRecordSchema = z.strictObject({
  barIndex: z.int().min(0).max(1_000_000),
  offset: z.string().max(32).refine(isOffsetText, "not a reduced fraction of a quarter note"),
});

export type PositionRecord = z.infer<typeof positionRecordSchema>;

export function toPositionRecord(position: Position): PositionRecord {
  return { barIndex: position.barIndex, offset: writeQuarters(position.offset) };
}

/** @throws RangeError if the record did not pass `positionRecordSchema`. */
export function toPosition(record: PositionRecord): Position {
  const offset = readQuarters(record.offset);
  if (offset === null) throw new RangeError(`Not an offset in quarter notes: ${record.offset}`);
  return { barIndex: record.barIndex, offset };
}
