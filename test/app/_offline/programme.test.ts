import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { pageOfEdition, planOfEdition } from "@/app/_offline/edition-on-stand";
import { findKept } from "@/app/_offline/find-kept";
import { forgetPiece } from "@/app/_offline/forget-piece";
import type { KeptPiece } from "@/app/_offline/kept-piece";
import { KeptStore } from "@/app/_offline/kept-store";
import { programmeOf, programmePage } from "@/app/_offline/programme-page";
import { sayOnDevice } from "@/app/_offline/say-on-device";
import { memoryCaches } from "./memory-caches";

const page = programmePage("e-1");
const first = { pieceId: "p-1", number: 2, reader: "soloist", title: "Concertino" } as const;
const second = { pieceId: "p-2", number: 1, reader: "pianist", title: "Romance" } as const;
const picture = ({ pieceId }: { pieceId: string }, index: number) =>
  `/api/pieces/${pieceId}/engraving/k-1/${index}`;
/** Everything that it takes to read an edition of two pictures. */
const partsOf = (edition: typeof first | typeof second) => [
  pageOfEdition(edition),
  planOfEdition(edition),
  picture(edition, 0),
  picture(edition, 1),
];

let cache: Map<string, Response>;
beforeEach(() => {
  cache = new Map();
  vi.stubGlobal("caches", memoryCaches(cache, "https://desk.test"));
});
afterEach(() => vi.unstubAllGlobals());

/** Puts by what has these addresses, for u-1. */
async function keep(...pieces: (Partial<KeptPiece> & { addresses: string[] })[]) {
  const store = await KeptStore.open();
  for (const address of pieces.flatMap(({ addresses }) => addresses))
    await store.put(address, new Response(bodyOf(address)));
  const list = pieces.map(({ addresses, ...piece }) => ({
    ...{ pieceId: null, edition: null, programme: null, openedAt: "2026-11-26T10:00:00.000Z" },
    ...piece,
    parts: addresses.map((address) => ({ address, bytes: 1 })),
  }));
  await store.writeList("u-1", list);
}

function bodyOf(address: string): string {
  if (address === page) return '<a href="/pieces/p-1/read/2">Read it</a>';
  if (!address.includes("/reading?")) return "x";
  return JSON.stringify({ key: "k-1", pages: [{ systems: [{ index: 0 }, { index: 1 }] }] });
}

describe("what of a programme is kept", () => {
  test("its page, and the editions that are there to the last picture", async () => {
    await keep(
      { programme: "e-1", addresses: [page] },
      { pieceId: "p-1", edition: 2, addresses: partsOf(first) },
      { pieceId: "p-2", edition: 1, addresses: partsOf(second).slice(0, -1) },
    );
    expect(await findKept("u-1", page, [first, second])).toEqual({ isPageKept: true, editions: [first] });
    // Somebody else's, or in another's pages, they are not there.
    const none = { isPageKept: false, editions: [] };
    expect(await findKept("u-2", page, [first, second])).toEqual(none);
    const others = [{ ...first, reader: "pianist" as const }];
    expect((await findKept("u-1", page, others)).editions).toEqual([]);
  });

  test("nothing, when nothing was ever put by", async () => {
    expect(await findKept("u-1", page, [first])).toEqual({ isPageKept: false, editions: [] });
  });

  test.each([
    ["p-1", ["/other"]],
    ["p-2", [page, "/other"]],
  ])("without piece %s it goes when it leads there: %j stays", async (pieceId, stays) => {
    await keep(
      { programme: "e-1", addresses: [page] },
      { programme: "e-2", addresses: ["/other"] },
      { pieceId, edition: 1, addresses: ["/its"] },
    );
    await forgetPiece(pieceId);
    expect([...cache.keys()].filter((address) => address !== "/.kept/list")).toEqual(stays);
  });
});

describe("how much is on the device is said", () => {
  const all = { isPageKept: true, editions: [first, second] };
  test.each([
    ["all of it", all, false, /^All of it is on this device/],
    ["all of it, once more", all, true, /^All of it is on this device/],
    ["the editions before the page", { ...all, isPageKept: false }, false, /^It is being put .* 2 of 2/],
    ["one so far", { ...all, editions: [second] }, true, /^It is being put .*: 1 of 2 editions so far/],
    ["one only", { ...all, editions: [second] }, false, /^On this device: 1 of 2 .* yet: Concertino, № 2\./],
    ["none", { isPageKept: true, editions: [] }, false, /yet: Concertino, № 2; Romance, № 1\. Open/],
  ])("%s", (_what, kept, isKeeping, words) => {
    expect(sayOnDevice(kept, [first, second], isKeeping)).toMatch(words);
  });
});

test.each([
  [page, "e-1"],
  ["/performances", null],
  ["/performances/programme/", null],
  ["/performances/programme/a/b", null],
])("%s is the page of programme %s", (pathname, programme) => {
  expect(programmeOf(pathname)).toBe(programme);
});
