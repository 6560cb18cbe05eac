import { beforeEach, expect, test } from "vitest";
import { deletePiece } from "@/lib/store/deletion/delete-piece";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { markCommentsSeen } from "@/lib/store/room/mark-comments-seen";
import { noteVisit } from "@/lib/store/room/note-visit";
import { commentOf } from "@/test/lib/room/room-records";
import { bringDuo, type Duo, openStoreForFile, type Person, valued } from "../duo";
import { RoomOfDuo } from "./room-of-duo";

openStoreForFile();
let duo: Duo;
let room: RoomOfDuo;
beforeEach(async () => {
  duo = await bringDuo();
  room = new RoomOfDuo(duo);
});

type Speaker = "pianist" | "soloist" | "coach";
const say = (role: Speaker, id: string, fields: Parameters<typeof commentOf>[2] = {}) =>
  room.write(duo[role], role, "comments", commentOf({ ...duo[role], role }, id, fields));
const leave = ({ userId }: Person, sequence: number) => noteVisit({ pieceId: duo.pieceId, userId, sequence });
const newFor = async (person: Person) =>
  (await listPieces(person)).map(({ id, newComments }) => [id === duo.pieceId, newComments]);

test("what the others said since somebody left is new to them, and their own is not", async () => {
  expect(await newFor(duo.pianist)).toEqual([[true, 0]]);
  await say("soloist", "c1");
  await leave(duo.pianist, 1);
  await say("soloist", "c2");
  await say("coach", "c3");
  await say("pianist", "c4");
  expect(await newFor(duo.pianist)).toEqual([[true, 2]]);
  // The soloist never left it: everything that the two others said.
  expect(await newFor(duo.soloist)).toEqual([[true, 2]]);
  expect(await newFor(duo.coach)).toEqual([[true, 3]]);
  // Who reads only has no part in the talk.
  expect(await newFor(duo.reader)).toEqual([[true, 0]]);
  await leave(duo.pianist, 4);
  expect(await newFor(duo.pianist)).toEqual([[true, 0]]);
});

test("what was seen, reworded or deleted is counted as it stands", async () => {
  await say("soloist", "c1");
  await say("soloist", "c2");
  await say("soloist", "c1", { text: "Wait longer", editedAt: "2026-11-25T09:00:00.000Z" });
  expect(await newFor(duo.pianist)).toEqual([[true, 2]]);
  await say("soloist", "c2", { deletedAt: "2026-11-25T09:00:00.000Z" });
  expect(await newFor(duo.pianist)).toEqual([[true, 1]]);
  await say("soloist", "c2");
  expect(await newFor(duo.pianist)).toEqual([[true, 2]]);
  valued(await markCommentsSeen(duo.pianist, duo.pieceId, ["c1"]));
  expect(await newFor(duo.pianist)).toEqual([[true, 1]]);
});

test("nothing is told of a piece that somebody left, or that was deleted", async () => {
  await say("pianist", "c1");
  valued(await removeMember(duo.coach, duo.pieceId, { userId: duo.coach.userId }));
  expect(await newFor(duo.coach)).toEqual([]);
  valued(await deletePiece(duo.pianist, duo.pieceId, { title: "Concertino" }));
  expect(await newFor(duo.soloist)).toEqual([]);
});
