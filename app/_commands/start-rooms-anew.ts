import { dataFolder } from "@/app/_commands/folders.mjs";
import { openDatabase } from "@/app/_commands/open-database.mjs";
import { StartFailure } from "@/app/_commands/start-failure.mjs";
import { closeDatabase } from "@/lib/store/database";
import { listRooms, startRoomAnew } from "@/lib/store/room/start-room-anew";

const usage = `Usage: npm run -s start-rooms-anew -- PIECE_ID | --all

Starts the room of one piece, or of all, anew: for after the database was put back to an earlier state.
What stands in the rooms stays; everybody in them is sent to the new ones.
The database is that of DATABASE_URL, or the embedded one.`;

/** @returns how many rooms could not be started anew. */
async function startAll(pieceIds: readonly string[]): Promise<number> {
  let failures = 0;
  for (const pieceId of pieceIds) {
    try {
      const started = await startRoomAnew(pieceId);
      if (started === null) failures += 1;
      console.log(
        started === null
          ? `There is no piece ${pieceId}.`
          : `${pieceId} "${started.title}": epoch ${started.epoch} begins with ${started.recordCount} records.`,
      );
    } catch (error) {
      failures += 1;
      console.error(`${pieceId} stays as it is: ${error instanceof Error ? error.message : error}`);
    }
  }
  return failures;
}

async function run(args: readonly string[]): Promise<void> {
  const [wanted] = args;
  if (wanted === undefined || args.length > 1 || (wanted.startsWith("-") && wanted !== "--all")) {
    console.error(usage);
    process.exitCode = 1;
    return;
  }
  const opened = await openDatabase(process.env.DATABASE_URL || null, dataFolder);
  process.env.DATABASE_URL = opened.url;
  try {
    const pieceIds = wanted === "--all" ? await listRooms() : [wanted];
    if ((await startAll(pieceIds)) > 0) process.exitCode = 1;
  } finally {
    await closeDatabase();
    await opened.stop();
  }
}

try {
  await run(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof StartFailure ? error.message : error);
  process.exitCode = 1;
}
