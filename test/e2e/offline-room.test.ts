import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { isDisputed } from "@/lib/room/pencilled-cut";
import { readComments } from "@/lib/room/read-comments";
import { readPencilledCuts } from "@/lib/room/read-pencilled-cuts";
import { loadRoom } from "@/realtime/persist";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { inDatabase } from "./in-database";
import { Line } from "./line";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("a room without a network", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let line: Line;
  let nerys: Person;
  let matthis: Person;
  let piece: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    line = await Line.lay();
    nerys = await Person.sitDown(browser, product.url, { width: 834, height: 1194 });
    matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 }, { proxy: line.proxy });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    piece = new URL(nerys.page.url()).pathname;
    await nerys.seesNotes();
  });

  afterAll(async () => {
    await browser?.close();
    await line?.takeDown();
    await product?.stop();
    await database?.drop();
  });

  async function goOffline(): Promise<void> {
    line.cut();
    await matthis.page.context().setOffline(true);
    await matthis.sees(matthis.page.getByText(/No connection\. What you write stays here/));
  }

  async function comeBack(): Promise<void> {
    line.mend();
    await matthis.page.context().setOffline(false);
  }

  /** What a power cut does; the same address comes back. */
  async function crashAndReturn(): Promise<void> {
    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
  }

  const openPane = (person: Person, name: RegExp) => person.page.getByRole("button", { name }).click();
  const pencil = (person: Person, bars: string) =>
    person.page.getByRole("article", { name: new RegExp(`^In pencil: bars ${bars}`) });
  const movePencil = async (person: Person, bars: string, from: string, to: string) => {
    await pencil(person, bars).getByRole("button", { name: "Move" }).click();
    await person.chooseBars(from, to);
    await person.page.getByRole("button", { name: "Move it in pencil" }).click();
  };
  const fieldTo = (person: Person, to: string) => person.page.getByLabel(`Write to ${to} about this cut`);
  /** Opens the card of cut 2, unless it is open. */
  const openCut = async (person: Person, to: string) => {
    const heading = person.cut(2).getByRole("button", { name: /^Cut 2/ });
    await person.sees(fieldTo(person, to).or(heading));
    if ((await heading.count()) > 0) await heading.click();
    await person.sees(fieldTo(person, to));
  };
  const write = async (person: Person, to: string, words: string) => {
    await openCut(person, to);
    await fieldTo(person, to).fill(words);
    await person.page.getByRole("button", { name: "Send", exact: true }).click();
    await person.sees(person.page.getByText(words));
  };
  const isAllSaved = (person: Person) =>
    person.page
      .getByText(/not sent|Saving|No connection/)
      .first()
      .waitFor({ state: "detached" });

  /** What the database has of the room. */
  const readStored = () =>
    inDatabase(database.url, async () => {
      const room = await loadRoom(piece.split("/").at(-1) ?? "");
      const doc = room?.doc ?? openRoomDoc();
      const disputed = readPencilledCuts(doc).filter(isDisputed).length;
      return { texts: readComments(doc).map(({ text }) => text), disputed };
    });

  test("what both write apart from each other arrives once, and what they wrote differently is settled", async () => {
    // A cut in pencil that both see.
    await openPane(nerys, /^Tutti/);
    await nerys.page.getByRole("button", { name: "Propose a cut" }).first().click();
    await nerys.chooseBars("17", "25");
    await nerys.page.getByRole("button", { name: "Pencil it in" }).click();
    await nerys.sees(pencil(nerys, "17–24"));
    await matthis.go(piece);
    await matthis.seesNotes();
    await openPane(matthis, /^Cuts/);
    await matthis.sees(pencil(matthis, "17–24"));
    await untilKept(matthis.page, piece);

    await goOffline();
    await movePencil(matthis, "17–24", "17", "21");
    await matthis.sees(pencil(matthis, "17–20"));
    await write(matthis, "Nerys", "Written in the train.");

    // Meanwhile she goes on, and the server dies and comes back.
    await write(nerys, "Matthis", "Written at the piano.");
    await isAllSaved(nerys);
    await crashAndReturn();
    await movePencil(nerys, "17–24", "19", "25");
    await nerys.sees(pencil(nerys, "19–24"));
    await isAllSaved(nerys);

    // His page comes from the device, with its notes and with everything he wrote.
    await matthis.page.reload();
    await matthis.sees(matthis.page.getByText(/^No connection\. This is the piece as of \w+ \d\d:\d\d\.$/));
    await matthis.seesNotes();
    await matthis.page.getByRole("button", { name: "Open", exact: true }).click();
    await seesAllSystems(matthis.page);
    await openPane(matthis, /^Cuts/);
    await matthis.sees(pencil(matthis, "17–20"));
    await openCut(matthis, "Nerys");
    await matthis.sees(matthis.page.getByText("Written in the train."));
    // What needs the server says so, and loses no word.
    const words = "Half a sentence";
    await fieldTo(matthis, "Nerys").fill(words);
    await pencil(matthis, "17–20").getByRole("button", { name: "Propose" }).click();
    await matthis.sees(matthis.page.getByText(/^Not sent: there is no connection\. It stays in pencil/));
    expect(await fieldTo(matthis, "Nerys").inputValue()).toBe(words);

    await comeBack();
    await matthis.sees(matthis.page.getByText("Written at the piano."));
    await nerys.sees(nerys.page.getByText("Written in the train."));
    expect(await fieldTo(matthis, "Nerys").inputValue()).toBe(words);
    for (const person of [nerys, matthis]) {
      await isAllSaved(person);
      await person.sees(person.page.getByText(/Written at the same time, and differently/));
      for (const text of ["Written in the train.", "Written at the piano."])
        expect(await person.page.getByText(text).count()).toBe(1);
    }
    const stored = await readStored();
    expect(stored.disputed).toBe(1);
    for (const text of ["Written in the train.", "Written at the piano."])
      expect(stored.texts.filter((one) => one === text)).toHaveLength(1);

    await nerys.page.getByRole("button", { name: /^Keep this one\. .*17–20/ }).click();
    for (const person of [nerys, matthis]) {
      await person.sees(pencil(person, "17–20"));
      expect(await person.page.getByText(/Written at the same time/).count()).toBe(0);
      await isAllSaved(person);
    }
    expect((await readStored()).disputed).toBe(0);
  });

  test("what was proposed while a page heard nothing is there once it is let in again", async () => {
    await goOffline();
    await openPane(nerys, /^Tutti/);
    await nerys.page.getByRole("button", { name: "Propose a cut" }).first().click();
    await nerys.chooseBars("173", "177");
    await nerys.page.getByRole("button", { name: "Propose to Matthis" }).click();
    await nerys.sees(nerys.cut(3));
    expect(await matthis.cut(3).count()).toBe(0);
    await comeBack();
    await matthis.sees(matthis.cut(3));
  });

  test("a page that is not kept says so, and lists and editions are there", async () => {
    await untilKept(matthis.page, piece);
    await matthis.page.evaluate(() => {
      for (const field of document.querySelectorAll("textarea")) field.value = "";
    });
    line.cut();
    await matthis.page.context().setOffline(true);
    await matthis.go("/");
    await matthis.sees(matthis.page.getByText(/^No connection\. This is the page as of/));
    await matthis.sees(matthis.page.getByText(/Pieces I prepare/));
    await matthis.go(`${piece}/editions`);
    await matthis.sees(matthis.page.getByRole("heading", { name: /^Editions of/ }));
    await matthis.sees(matthis.page.getByText(/^No connection\. This is the piece as of/));
    await matthis.go("/pieces/0192a0a0-0000-7000-8000-000000000000");
    await matthis.sees(matthis.page.getByText(/this piece is not kept on this device/));
    await comeBack();
    await matthis.go(piece);
    await matthis.seesNotes();
    await matthis.page.getByText(/This is the piece as of/).waitFor({ state: "detached" });
  });

  test("signing out asks about what is not sent, and leaves nothing else in the browser", async () => {
    await openPane(matthis, /^Cuts/);
    await isAllSaved(matthis);
    await untilKept(matthis.page, piece);
    await goOffline();
    await write(matthis, "Nerys", "Never sent before he left.");
    await matthis.go("/");
    await matthis.page.getByText("Matthis Orban").first().click();
    await matthis.page.getByRole("button", { name: "Sign out", exact: true }).click();
    await matthis.sees(matthis.page.getByText("Never sent before he left."));
    await matthis.page.getByRole("dialog").getByRole("button", { name: "Sign out" }).click();
    await matthis.sees(matthis.page.getByText(/You are still signed in: the connection failed/));
    await comeBack();
    await matthis.page.getByText(/This is the page as of/).waitFor({ state: "detached" });
    await matthis.page.getByRole("button", { name: "Sign out", exact: true }).click();
    await matthis.page.getByRole("dialog").getByRole("button", { name: "Sign out" }).click();
    await matthis.page.waitForURL("/sign-in");
    await expect.poll(() => listKept(matthis.page)).toEqual([]);
    // His words wait under his name, and go when he is back.
    await matthis.signIn("matthis@example.org", password);
    await matthis.go(piece);
    await expect.poll(async () => (await readStored()).texts).toContain("Never sent before he left.");
    await matthis.page
      .getByText(/not sent|Saving/)
      .first()
      .waitFor({ state: "detached" });
    await matthis.go("/");
    await matthis.page.getByText("Matthis Orban").first().click();
    await matthis.page.getByRole("button", { name: "Sign out", exact: true }).click();
    await matthis.page.waitForURL("/sign-in");
    await expect.poll(() => listKept(matthis.page)).toEqual([]);
    await expect.poll(() => listRoomCopies(matthis.page)).toEqual([]);
    line.cut();
    await matthis.page.context().setOffline(true);
    await matthis.go(piece);
    await matthis.sees(matthis.page.getByText(/this piece is not kept on this device/));
  });
});

/** Addresses of what the worker keeps. */
function listKept(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const found: string[] = [];
    for (const name of await caches.keys())
      for (const { url } of await (await caches.open(name)).keys()) found.push(new URL(url).pathname);
    return found;
  });
}

function listRoomCopies(page: Page): Promise<string[]> {
  return page.evaluate(async () =>
    (await indexedDB.databases()).flatMap(({ name }) => (name?.startsWith("colla-room-") ? [name] : [])),
  );
}

/** Waits until a piece is put by with all its music: the worker notes it when all of it is there. */
async function untilKept(page: Page, piece: string): Promise<void> {
  const isKept = async () => {
    const parts = await page.evaluate(async () => {
      const note = await caches.match("/.kept/list");
      const list = (await note?.json()) as { pieces: { parts: { address: string }[] }[] } | undefined;
      return list?.pieces.map(({ parts }) => parts.map(({ address }) => address)) ?? [];
    });
    const kept = parts.find((addresses) => addresses.includes(piece)) ?? [];
    const systems = kept.filter((address) => /\/engraving\/[\w-]+\/\d+$/.test(address));
    return kept.includes("/") && kept.includes(`${piece}/editions`) && systems.length > 10;
  };
  await expect.poll(isKept, { timeout: 120_000 }).toBe(true);
}

/** Leafs through the score to its end: every system has its notes, those never scrolled to before included. */
async function seesAllSystems(page: Page): Promise<void> {
  const rows = page.getByRole("region", { name: "Score" }).locator("li[data-first-bar]");
  const count = await rows.count();
  expect(count).toBeGreaterThan(10);
  for (let index = 0; index < count; index += 6) {
    await rows.nth(index).scrollIntoViewIfNeeded();
    await rows
      .nth(index)
      .locator("g.note, g.mRest, g.rest, g.multiRest")
      .first()
      .waitFor({ state: "attached" });
  }
  expect(await page.getByText("This system did not arrive").count()).toBe(0);
}
