import { fileURLToPath } from "node:url";
import { KilledTakers, takeAndDieIfAsked } from "./killed-taker";
import { bringRooms } from "./room-people";
import { allRaces, type RacedRoom, raceSnapshots } from "./snapshot-races";
import { withThrowAwayDatabase } from "./throw-away-database";
import { timeMerge } from "./time-merge";

type Row = Record<string, string | number>;

const races = 1_000;

/** So many rooms are raced in at the same time, and so often each, so that snapshots follow snapshots. */
const roomsAtOnce = 4;
const racesInARoom = 25;

/** A process has to be started for each that is killed; the other crashes come four times as often. */
const quickRaces = allRaces.filter(({ crash }) => crash !== "process killed");
const cycle = [...quickRaces, ...quickRaces, ...quickRaces, ...allRaces];

/**
 * Snapshots raced against appends, each with a crash at one of its steps: what was acknowledged and is not there.
 * Before, how long merging a long log takes, and holds up everything else.
 */
export const benchmark = {
  name: `${races} snapshots that crash while the room is written in`,
  run: (): Promise<Row[]> =>
    withThrowAwayDatabase(async () => [
      await timeMerge(2_000),
      await timeMerge(20_000),
      ...(await raceAll()),
    ]),
};

async function raceAll(): Promise<Row[]> {
  const takers = new KilledTakers(fileURLToPath(import.meta.url));
  const rows = new Map<string, { races: number; appended: number; lost: number; faults: string[] }>();
  let next = 0;
  const raceOnce = async (room: RacedRoom) => {
    const race = cycle[next % cycle.length];
    next += 1;
    if (!race) return;
    const outcome = await raceSnapshots(room, race, takers.take);
    const key = `${race.step}: ${race.crash}`;
    const row = rows.get(key) ?? { races: 0, appended: 0, lost: 0, faults: [] };
    rows.set(key, {
      races: row.races + 1,
      appended: row.appended + outcome.appended,
      lost: row.lost + outcome.lost,
      faults: [...row.faults, ...outcome.faults],
    });
  };
  const raceOn = async () => {
    while (next < races) {
      const [room] = await bringRooms(1, ["pianist"]);
      const userId = room?.guests[0]?.userId;
      if (!room || !userId) throw new RangeError("no room was made");
      for (let race = 0; race < racesInARoom && next < races; race += 1)
        await raceOnce({ pieceId: room.pieceId, userId });
    }
  };
  try {
    await Promise.all(Array.from({ length: roomsAtOnce }, raceOn));
  } finally {
    takers.close();
  }
  return [...rows].map(([at, { faults, ...counts }]) => ({
    "crash at": at,
    ...counts,
    faults: faults.length,
    "first fault": faults[0] ?? "",
  }));
}

takeAndDieIfAsked();
