import { z } from "zod";
import { type RoomMapName, type RoomRecords, recordSchemas, roomMapNames } from "@/lib/room/room-keys";
import { maxRecords } from "@/lib/room/room-limits";
import { momentSchema } from "./archive-fields";

/** The records of a room with the moment in which each was written as it stands; people and proposals by their keys. */
export type ArchivedRoom = {
  readonly [Name in RoomMapName]: readonly { readonly at: string; readonly record: RoomRecords[Name] }[];
};

const listOf = (map: RoomMapName) =>
  z.array(z.strictObject({ at: momentSchema, record: recordSchemas[map] })).max(maxRecords[map]);

/** room.json: a list for each map of the shared document, in the order of the keys of its records. */
export const archivedRoomSchema = z.strictObject({
  schema: z.literal(1),
  // What is made of a list of names has no type of its own.
  maps: z.strictObject(
    Object.fromEntries(roomMapNames.map((map) => [map, listOf(map)])),
  ) as unknown as z.ZodType<ArchivedRoom>,
});
