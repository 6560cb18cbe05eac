import type { Page } from "playwright-core";

/** Addresses of everything that this browser keeps for the time without a connection. */
export function listKept(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const note = await caches.match("/.kept/list");
    const list = (await note?.json()) as { pieces: { parts: { address: string }[] }[] } | undefined;
    return list?.pieces.flatMap(({ parts }) => parts.map(({ address }) => address)) ?? [];
  });
}
