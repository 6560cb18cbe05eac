import { replayRoom } from "@/lib/room/history/replay-room";
import { roomAsJson } from "@/lib/room/room-as-json";
import { BrokenRoom, changesAsJson, RoomSchedule } from "@/test/lib/room/room-schedule";

/**
 * Plays one schedule to its end and holds it against what a room promises.
 *
 * @param codes the first number is the schedule's seed, each further one an operation.
 * @returns how many operations were played and how many entries the log got.
 * @throws BrokenRoom when the pages, the server and the replayed log are not all the same, or something is lost.
 */
export function runSchedule(codes: readonly number[]): { operations: number; entries: number } {
  const [seed = 0, ...steps] = codes;
  const schedule = new RoomSchedule(seed);
  for (const code of steps) schedule.step(code);
  schedule.settle();
  const { server, pages } = schedule;
  const expected = roomAsJson(server.doc);
  if (pages.some(({ doc }) => roomAsJson(doc) !== expected)) throw new BrokenRoom("the pages differ");
  if (changesAsJson(replayRoom(server.log)) !== expected)
    throw new BrokenRoom("the log tells something else");
  const lost = schedule.listLost();
  if (lost.length > 0) throw new BrokenRoom(`lost: ${lost.join(", ")}`);
  return { operations: steps.length, entries: server.log.length };
}
