import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { keepPiece } from "@/app/_offline/keep-piece";
import { viewerMeta } from "@/app/_offline/viewer-meta";
import { memoryCaches } from "./memory-caches";

const origin = "https://desk.test";
const page = "/pieces/p-1/read/2";
const reading = "/api/pieces/p-1/editions/2/reading?for=soloist";
const picture = (index: number) => `/api/pieces/p-1/engraving/k-1/${index}`;
const message = {
  ...{ kind: "keep" as const, userId: "u-1", pieceId: "p-1", edition: 2, programme: null },
  ...{ pages: [page], files: [], engravings: [reading] },
};

/** What the server answers by address; what is missing fails as without a connection. */
let server: Map<string, () => Response>;
/** What lies in the browser's cache. */
let cache: Map<string, Response>;

beforeEach(() => {
  const pages = [{ systems: [{ index: 0 }, { index: 1 }] }];
  server = new Map([
    [page, () => new Response(`<head>${viewerMeta("u-1")}></head>`)],
    [reading, () => Response.json({ key: "k-1", pages })],
    [picture(0), () => new Response("<svg/>")],
    [picture(1), () => new Response("<svg/>")],
  ]);
  cache = new Map();
  vi.stubGlobal("self", { location: { origin } });
  vi.stubGlobal("fetch", async (address: string) => {
    const answer = server.get(address);
    if (!answer) throw new TypeError("Failed to fetch");
    return answer();
  });
  vi.stubGlobal("caches", memoryCaches(cache, origin));
});
afterEach(() => vi.unstubAllGlobals());

const kept = () => [...cache.keys()].filter((address) => address !== "/.kept/list").sort();
const everything = [page, reading, picture(0), picture(1)].sort();

describe("putting by an edition", () => {
  test("keeps its page, its plan and every picture", async () => {
    await keepPiece(message);
    expect(kept()).toEqual(everything);
  });

  test.each<[what: string, answer: (() => Response) | null]>([
    ["the connection is lost meanwhile", null],
    ["the pages are being made anew", () => Response.json({ progress: 0.5 }, { status: 202 })],
    ["the server is away", () => new Response("", { status: 503 })],
  ])("a second time, what is there stays when %s", async (_what, answer) => {
    await keepPiece(message);
    if (answer) server.set(reading, answer);
    else server.delete(reading);
    for (const index of [0, 1]) server.delete(picture(index));
    await keepPiece(message);
    expect(kept()).toEqual(everything);
  });

  test("what may be read no more is let go", async () => {
    await keepPiece(message);
    server.set(reading, () => Response.json({ sentence: "Not here." }, { status: 404 }));
    await keepPiece(message);
    expect(kept()).toEqual([page]);
  });

  test("a page that did not come changes nothing", async () => {
    await keepPiece(message);
    server.clear();
    await keepPiece(message);
    expect(kept()).toEqual(everything);
  });
});
