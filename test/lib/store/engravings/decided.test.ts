import { gunzipSync } from "node:zlib";
import { beforeEach, expect, test, vi } from "vitest";
import { engravePiece } from "@/lib/store/engravings/engrave-piece";
import { readEngravedSystem } from "@/lib/store/engravings/read-engraving";
import { bringDuo, type Duo, openStoreForFile, valued } from "../duo";
import { agreed, kept } from "../rewrites/duo-rewrites";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

/** The pictures of a view, once they are made. */
async function pictures(view: "open" | "as-it-will-read") {
  const summary = await vi.waitFor(
    async () => {
      const asked = valued(await engravePiece(duo.soloist, duo.pieceId, { view, layout: "desk" }));
      if (asked.state !== "ready") throw new Error("still being made");
      return asked.summary;
    },
    { timeout: 30_000 },
  );
  const systems = await Promise.all(
    summary.systems.map(async ({ index }) => {
      const packed = valued(await readEngravedSystem(duo.soloist, duo.pieceId, summary.key, index));
      return gunzipSync(packed).toString("utf8");
    }),
  );
  return { key: summary.key, svg: systems.join("\n") };
}

const ossiaStaves = (svg: string) => svg.match(/class="oStaff/g)?.length ?? 0;

test("as it will read, what is told or agreed stands over the print; what is private or open does not", async () => {
  const before = await pictures("as-it-will-read");
  await kept(duo, "only_me", 1);
  await kept(duo, "asked", 2);
  expect((await pictures("as-it-will-read")).key).toBe(before.key);
  await kept(duo, "told", 3);
  const told = await pictures("as-it-will-read");
  expect(told.key).not.toBe(before.key);
  expect([ossiaStaves(before.svg), ossiaStaves(told.svg)]).toEqual([0, 1]);
  await agreed(duo, 0);
  expect(ossiaStaves((await pictures("as-it-will-read")).svg)).toBe(2);
  expect(ossiaStaves((await pictures("open")).svg)).toBe(0);
});
