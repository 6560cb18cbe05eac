import type { RoomMapName, RoomRecords } from "./room-keys";

interface DatedRecordIn<Name extends RoomMapName> {
  readonly map: Name;
  readonly record: RoomRecords[Name];
  /** When it was written as it stands, ISO 8601, UTC. */
  readonly at: string;
}

/** A record as it stands, with the moment in which it came to be so. */
export type DatedRecord = { [Name in RoomMapName]: DatedRecordIn<Name> }[RoomMapName];
