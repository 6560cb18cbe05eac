import type { ToStudy } from "./study-message";
import { StudyServer } from "./study-server";

/** What this worker was loaded from: a page that is opened without a connection needs it too. */
function listScripts(): string[] {
  const loaded = performance.getEntriesByType("resource").map(({ name }) => name);
  return [location.href, ...loaded].map((address) => new URL(address).pathname);
}

const server = new StudyServer((message) => postMessage(message), listScripts);
addEventListener("message", ({ data }: MessageEvent<ToStudy>) => server.hear(data));
