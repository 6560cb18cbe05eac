import fs from "node:fs/promises";
import path from "node:path";

export const dynamic = "force-dynamic";

/** The program that answers for the server when there is no connection; bundled beside the server (app/_offline). */
export async function GET(): Promise<Response> {
  const file = path.join(process.cwd(), "dist", "service-worker.js");
  const program = await fs.readFile(file).catch(() => null);
  if (program === null) return new Response(null, { status: 404 });
  return new Response(program, {
    headers: {
      "content-type": "text/javascript; charset=utf-8",
      // The browser asks at each visit whether it has changed.
      "cache-control": "no-cache",
      "service-worker-allowed": "/",
    },
  });
}
