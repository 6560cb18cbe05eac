import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { GET as getFile } from "@/app/api/pieces/[pieceId]/editions/[number]/[file]/route";
import { GET as getArchive } from "@/app/api/pieces/[pieceId]/editions/[number]/edition.zip/route";
import { GET as getSystem } from "@/app/api/pieces/[pieceId]/engraving/[key]/[system]/route";
import { GET as getEngraving } from "@/app/api/pieces/[pieceId]/engraving/route";
import { endEngraver } from "@/lib/engrave/engraver";
import { inspectEdition } from "@/lib/inspect/inspect-edition";
import { readScore } from "@/lib/musicxml/read-score";
import { database } from "@/lib/store/database";
import type { EngravingSummary } from "@/lib/store/engravings/engraving-record";
import { openStore } from "@/test/lib/store/duo";
import { requestOf } from "./strangers/browser";
import { type BusyDesk, bringBusyDesk, signInAs } from "./strangers/desk";

vi.mock("next/headers", async () => (await import("./strangers/browser")).nextHeaders);

let store: Awaited<ReturnType<typeof openStore>>;
let desk: BusyDesk;
beforeAll(async () => {
  store = await openStore();
  desk = await bringBusyDesk();
  await signInAs(desk.coach);
});
afterAll(async () => {
  endEngraver();
  await store.close();
});

async function ask(query: string): Promise<Response> {
  const { pieceId } = desk;
  return getEngraving(requestOf(`/api/pieces/${pieceId}/engraving?${query}`), {
    params: Promise.resolve({ pieceId }),
  });
}

async function engraved(query: string): Promise<EngravingSummary> {
  const response = await vi.waitFor(
    async () => {
      const answer = await ask(query);
      expect([200, 202]).toContain(answer.status);
      if (answer.status === 202) expect(await answer.json()).toEqual({ progress: expect.any(Number) });
      expect(answer.status).toBe(200);
      return answer;
    },
    { timeout: 50_000, interval: 50 },
  );
  return response.json();
}

async function picture(summary: EngravingSummary, index: number): Promise<Response> {
  const params = { pieceId: desk.pieceId, key: summary.key, system: String(index) };
  return getSystem(requestOf("/"), { params: Promise.resolve(params) });
}

const barsOf = ({ systems }: EngravingSummary) =>
  systems.flatMap(({ bars }) => bars.map(({ barIndex }) => barIndex));
const allBars = Array.from({ length: 24 }, (_, index) => index);

describe("the engraving of a piece", () => {
  test("is made once, however many ask, and kept", async () => {
    const [first, second] = await Promise.all([engraved("layout=phone"), engraved("view=open&layout=phone")]);
    expect(second).toEqual(first);
    expect(barsOf(first)).toEqual(allBars);
    const rows = { pieceId: desk.pieceId, key: first.key };
    expect(await database().engraving.count({ where: rows })).toBe(1);
    expect(await database().engravedSystem.count({ where: rows })).toBe(first.systems.length);
    // Begun anew it would not be there at once.
    endEngraver();
    expect((await ask("layout=phone")).status).toBe(200);
  });

  test("gives each system as inert SVG, for good but to nobody else", async () => {
    const summary = await engraved("layout=phone");
    const answer = await picture(summary, 0);
    const { headers } = answer;
    const svg = await answer.text();
    // Next takes this header off a route's answer: a body packed here would arrive packed twice.
    expect(headers.has("content-encoding")).toBe(false);
    expect(svg).toMatch(/^<svg[^>]*viewBox/);
    expect(svg).not.toMatch(/<script|\son\w+=|javascript:|<foreignObject/i);
    expect(headers.get("content-type")).toBe("image/svg+xml; charset=utf-8");
    expect(headers.get("cache-control")).toBe("private, max-age=31536000, immutable");
    expect(headers.get("content-security-policy")).toContain("sandbox");
    expect((await picture(summary, 9999)).status).toBe(404);
    expect((await picture({ ...summary, key: "0".repeat(64) }, 0)).status).toBe(404);
  });

  test("as it will read has no bar that is cut, and the others under the numbers of the source", async () => {
    // Agreed on this desk: bars 9 to 11, by index.
    const summary = await engraved("view=as-it-will-read&layout=phone");
    expect(barsOf(summary)).toEqual(allBars.filter((bar) => bar < 9 || bar >= 12));
  });

  test.each(["view=backwards", "layout=wall"])("of “%s” there is none", async (query) => {
    expect((await ask(query)).status).toBe(400);
  });
});

describe("the files of an edition", () => {
  const file = async (name: string, number = "1", query = "") => {
    const params = { pieceId: desk.pieceId, number, file: name };
    return getFile(requestOf(`/${query}`), { params: Promise.resolve(params) });
  };

  test("a file that is asked for soon tells how far it is, until it is there", async () => {
    const answers: number[] = [];
    const response = await vi.waitFor(
      async () => {
        const answer = await file("soloist.pdf", "1", "?soon=yes&cuts=shown&staff=small");
        answers.push(answer.status);
        if (answer.status === 202) expect(await answer.json()).toEqual({ progress: expect.any(Number) });
        expect(answer.status).toBe(200);
        return answer;
      },
      { timeout: 50_000, interval: 50 },
    );
    expect(response.headers.get("content-type")).toBe("application/pdf");
    expect(answers.slice(0, -1).every((status) => status === 202)).toBe(true);
  });

  test.each([
    ["", 200],
    ["?from=0", 200],
    ["?from=7", 404],
  ])("what changed since an edition before: changes.pdf%s gives %i", async (query, status) => {
    expect((await file("changes.pdf", "1", query)).status).toBe(status);
  });

  test.each(["pianist.pdf", "soloist.pdf", "cut-sheet.pdf"])("%s is a PDF on either paper", async (name) => {
    const sizes = [];
    for (const paper of ["A4", "Letter"]) {
      const response = await file(name, "1", `?paper=${paper}`);
      expect([response.status, response.headers.get("content-type")]).toEqual([200, "application/pdf"]);
      const bytes = Buffer.from(await response.arrayBuffer());
      expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
      sizes.push(
        /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(bytes.toString("latin1"))?.slice(1, 3).map(Number),
      );
    }
    // ISO 216 and US Letter in points of 1/72 inch.
    expect(sizes).toEqual([
      [595.28, 841.89],
      [612, 792],
    ]);
  });

  test("the MusicXML reads back without the bars that are cut", async () => {
    const response = await file("edition.musicxml");
    expect(response.headers.get("content-disposition")).toContain("attachment;");
    const read = readScore(new Uint8Array(await response.arrayBuffer()));
    expect(read.ok && read.value.score.bars.map(({ label }) => label)).toEqual(
      allBars.filter((bar) => bar < 9 || bar >= 12).map((bar) => String(bar + 1)),
    );
  });

  const zip = async (number: string) =>
    getArchive(requestOf("/"), { params: Promise.resolve({ pieceId: desk.pieceId, number }) });

  test("the archive to take along holds all that it should", async () => {
    const response = await zip("1");
    expect([response.status, response.headers.get("content-type")]).toEqual([200, "application/zip"]);
    expect(response.headers.get("content-disposition")).toMatch(/^attachment; .*edition\.zip/);
    const inspected = inspectEdition(new Uint8Array(await response.arrayBuffer()));
    expect(inspected.ok && inspected.value).toMatchObject({ number: 1, isWhole: true, isAsPacked: true });
  });

  test.each(["2", "0", "one"])("of № %s there is no archive", async (number) => {
    expect((await zip(number)).status).toBe(404);
  });

  test.each([
    ["pianist.pdf", "2", ""],
    ["pianist.pdf", "0", ""],
    ["pianist.pdf", "1e0x", ""],
    ["pianist.exe", "1", ""],
    ["../source", "1", ""],
    ["pianist.pdf", "1", "?paper=A0"],
  ])("%s of № %s%s is not there", async (name, number, query) => {
    expect((await file(name, number, query)).status).toBe(404);
  });
});
