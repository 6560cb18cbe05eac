import type { RoomMapName, RoomRecords } from "./room-keys";

/** One record, and where it stands or is to stand. */
export type RoomWrite = {
  [Name in RoomMapName]: { readonly map: Name; readonly key: string; readonly record: RoomRecords[Name] };
}[RoomMapName];
