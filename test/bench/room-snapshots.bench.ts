import { fileURLToPath } from "node:url";
import { KilledTakers, takeAndDieIfAsked } from "./killed-taker";
import { bringRooms } from "./room-people";
import { allRaces, raceSnapshots } from "./snapshot-races";
import { withThrowAwayDatabase } from "./throw-away-database";
import { timeMerge } from "./time-merge";

type Row = Record<string, string | number>;

const races = 1_000;

/** So many rooms are raced in at the same time, and each again and again, so that snapshots follow snapshots. */
const rooms = 4;

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
  const raceIn = async (room: { pieceId: string; userId: string }) => {
    while (next < races) {
      const race = allRaces[next % allRaces.length];
      next += 1;
      if (!race) continue;
      const outcome = await raceSnapshots(room, race, takers.take);
      const key = `${race.step}: ${race.crash}`;
      const row = rows.get(key) ?? { races: 0, appended: 0, lost: 0, faults: [] };
      rows.set(key, {
        races: row.races + 1,
        appended: row.appended + outcome.appended,
        lost: row.lost + outcome.lost,
        faults: [...row.faults, ...outcome.faults],
      });
    }
  };
  try {
    const furnished = await bringRooms(rooms, ["pianist"]);
    await Promise.all(
      furnished.map(({ pieceId, guests }) => raceIn({ pieceId, userId: guests[0]?.userId ?? "" })),
    );
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
