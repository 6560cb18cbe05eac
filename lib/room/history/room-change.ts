import type { RoomMapName, RoomRecords } from "../room-keys";

interface RoomChangeIn<Name extends RoomMapName> {
  /** The entry of the log that made the change. */
  readonly sequence: number;
  readonly epoch: number;
  /** When it was stored, ISO 8601, UTC. */
  readonly at: string;
  /** Who wrote it, as the log tells and not the record; null for what a new epoch changed by itself. */
  readonly userId: string | null;
  readonly map: Name;
  readonly key: string;
  /** Null when there was no record. */
  readonly before: RoomRecords[Name] | null;
  /** Null when there is no record any more, which only a new epoch can bring about. */
  readonly after: RoomRecords[Name] | null;
  /** `after` was written at the same time as what stands, in `before`, and that one goes on standing. */
  readonly isOvertaken: boolean;
}

/** What one entry of a room's log did to one record. Plain JSON. */
export type RoomChange = { [Name in RoomMapName]: RoomChangeIn<Name> }[RoomMapName];
