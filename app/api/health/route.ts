import { database } from "@/lib/store/database";
import { version } from "@/package.json";

export const dynamic = "force-dynamic";

/** Whether this server and its database answer. */
export async function GET(): Promise<Response> {
  const isUp = await isDatabaseUp();
  return Response.json(
    { ok: isUp, database: isUp ? "up" : "down", version },
    { status: isUp ? 200 : 503, headers: { "cache-control": "no-store" } },
  );
}

async function isDatabaseUp(): Promise<boolean> {
  try {
    await database().$queryRaw`SELECT 1`;
    return true;
  } catch {
    return false; // Why is in the database's log; whoever asks needs only to know that it is so.
  }
}
