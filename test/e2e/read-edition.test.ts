import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { Line } from "./line";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";
const tablet = { width: 834, height: 1194 };

describe.skipIf(!executable)("an edition on the stand", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let line: Line;
  let matthisLine: Line;
  let nerys: Person;
  let matthis: Person;
  /** `/pieces/…` of the demo's piece. */
  let piece: string;
  let link = "";

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    [line, matthisLine] = await Promise.all([Line.lay(), Line.lay()]);
    nerys = await Person.sitDown(browser, product.url, tablet, { proxy: line.proxy, hasTouch: true });
    matthis = await Person.sitDown(
      browser,
      product.url,
      { width: 390, height: 844 },
      { proxy: matthisLine.proxy },
    );
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    piece = new URL(nerys.page.url()).pathname;
  });

  afterAll(async () => {
    await browser?.close();
    await line?.takeDown();
    await matthisLine?.takeDown();
    await product?.stop();
    await database?.drop();
  });

  const cut = async (theirs: Line, { page }: Person) => {
    theirs.cut();
    await page.context().setOffline(true);
  };
  const mend = async (theirs: Line, { page }: Person) => {
    theirs.mend();
    await page.context().setOffline(false);
  };
  const tap = async (x: number, y: number, page: number) => {
    await nerys.page.touchscreen.tap(x, y);
    await seesPage(nerys.page, page);
  };
  const press = async (key: string, page: number) => {
    await nerys.page.keyboard.press(key);
    await seesPage(nerys.page, page);
  };

  test("keys, pedals and fingers turn it, and nothing else happens", async () => {
    await nerys.go(`${piece}/editions`);
    await nerys.page.getByRole("link", { name: "Read it page by page" }).click();
    await nerys.page.waitForURL(`${piece}/read/1`);
    await seesPage(nerys.page, 1);
    const last = await countPages(nerys.page);
    expect(last).toBeGreaterThan(4);
    // Nothing of the desk stands around it.
    expect(await nerys.page.getByRole("navigation").count()).toBe(0);
    const bar = nerys.page.getByRole("banner");
    expect(await bar.getByText(`Page 1 of ${last}`).isVisible()).toBe(true);

    await press("PageDown", 2);
    await press("ArrowRight", 3);
    await press(" ", 4);
    await press("Shift+ ", 3);
    await press("PageUp", 2);
    await press("ArrowLeft", 1);
    await press("PageUp", 1);
    await press("End", last);
    await press("PageDown", last);
    await press("Home", 1);

    await tap(700, 700, 2);
    await tap(300, 1100, 3);
    await tap(200, 700, 2);
    await swipe(nerys.page, 600, 250);
    await seesPage(nerys.page, 3);
    await swipe(nerys.page, 250, 600);
    await seesPage(nerys.page, 2);
    // Turning has put the bar away; the top edge brings it, and turning puts it away again.
    await expect.poll(() => opacityOf(bar)).toBe("0");
    await tap(650, 20, 2);
    await expect.poll(() => opacityOf(bar)).toBe("1");
    // The finger lay where a control of the bar came to stand, and did not press it.
    expect(new URL(nerys.page.url()).search).toBe("");
    await tap(700, 700, 3);
    await expect.poll(() => opacityOf(bar)).toBe("0");
    expect(new URL(nerys.page.url()).pathname).toBe(`${piece}/read/1`);
  });

  test("each target is at least 60 pixels, and a tablet that is laid down shows two pages", async () => {
    await tap(650, 20, 3);
    for (const control of await nerys.page.getByRole("banner").getByRole("button").all()) {
      const box = await control.boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(60);
    }
    await nerys.page.setViewportSize({ width: 1194, height: 834 });
    await seesPage(nerys.page, 3);
    await seesPage(nerys.page, 4);
    await press("PageDown", 5);
    await seesPage(nerys.page, 6);
    await nerys.page.setViewportSize(tablet);
    await seesPage(nerys.page, 5);
    await expect.poll(() => nerys.page.locator("[data-shown]").count()).toBe(1);
  });

  test("the other's pages open at the same bar, and the address keeps both", async () => {
    await press("PageUp", 4);
    await tap(650, 20, 4);
    const bar = await firstBarShown(nerys.page);
    await nerys.page.getByRole("button", { name: "Clarinet in B♭ part" }).click();
    await nerys.page.waitForURL(/for=soloist/);
    await nerys.page.locator("[data-shown][data-drawn]").waitFor();
    await expect.poll(() => lastBarShown(nerys.page)).toBeGreaterThanOrEqual(bar);
    expect(await firstBarShown(nerys.page)).toBeLessThanOrEqual(bar);
    const address = nerys.page.url();
    await nerys.page.reload();
    await nerys.page.locator("[data-shown][data-drawn]").waitFor();
    expect(nerys.page.url()).toBe(address);
    await nerys.page.getByRole("button", { name: "Score" }).click();
    await expect.poll(() => firstBarShown(nerys.page)).toBeLessThanOrEqual(bar);
  });

  test("without a connection it opens where it was, after a cold start too, and turns to its end", async () => {
    await press("Home", 1);
    await press("PageDown", 2);
    await untilKept(nerys.page, `${piece}/read/1`, /\/reading\?for=(pianist|soloist)$/, 2);
    await cut(line, nerys);
    await nerys.page.reload();
    await seesPage(nerys.page, 2);
    const last = await countPages(nerys.page);
    for (let page = 3; page <= last; page += 1) await press("PageDown", page);
    // The tablet was put away and is opened again.
    const context = nerys.page.context();
    const cold = await context.newPage();
    await nerys.page.close();
    await cold.goto(`${piece}/read/1?for=soloist#page-2`);
    await seesPage(cold, 2);
    await cold.keyboard.press("PageDown");
    await seesPage(cold, 3);
    await cold.goto(`${piece}/read/1`);
    await seesPage(cold, 1);
    await cold.close();
    await mend(line, nerys);
  });

  test("an edition that was never opened lies on the device of whoever opens the piece", async () => {
    await matthis.go(piece);
    await matthis.seesNotes();
    await untilKept(matthis.page, piece, /\/engraving\?view=/, 1);
    await untilKept(matthis.page, `${piece}/read/1`, /\/reading\?for=soloist$/, 1);
    await cut(matthisLine, matthis);
    await matthis.go(`${piece}/read/1`);
    // His own part.
    await seesPage(matthis.page, 1);
    expect(
      await matthis.page.getByRole("button", { name: "Clarinet in B♭ part" }).getAttribute("aria-pressed"),
    ).toBe("true");
    await matthis.page.keyboard.press("PageDown");
    await seesPage(matthis.page, 2);
    // The desk is kept beside it.
    await matthis.go(piece);
    await matthis.seesNotes();
    await mend(matthisLine, matthis);
  });

  test("a reader's link opens that edition for somebody without an account, and nothing else", async () => {
    await matthis.go(`${piece}/editions`);
    await matthis.page.getByLabel("For whom").fill("Aurel, who turns");
    await matthis.page.getByRole("button", { name: /^Make a link to № 1/ }).click();
    link = await matthis.page.getByLabel(/^The link for Aurel, who turns/).inputValue();
    expect(link.startsWith(`${product.url}/read/`)).toBe(true);
    await matthis.sees(matthis.page.getByText(/not opened yet/));

    const aurel = await Person.sitDown(browser, product.url, tablet);
    const asked: string[] = [];
    aurel.page.on("request", (request) => asked.push(request.url()));
    const answer = await aurel.page.goto(link);
    await seesPage(aurel.page, 1);
    const headers = answer?.headers() ?? {};
    expect(headers["referrer-policy"]).toBe("no-referrer");
    expect(headers["cache-control"]).toMatch(/private.*no-store|no-store.*private/);
    expect(headers["x-robots-tag"]).toBe("noindex, nofollow");
    const pieceId = piece.split("/").at(-1) ?? "";
    expect(await aurel.page.content()).not.toContain(pieceId);
    await aurel.page.keyboard.press("PageDown");
    await seesPage(aurel.page, 2);
    expect(asked.filter((url) => url.includes(pieceId))).toEqual([]);
    // Who made it sees that it was opened.
    await matthis.page.reload();
    await matthis.sees(matthis.page.getByText(/last opened/));

    const token = link.split("/").at(-1) ?? "";
    for (const path of [piece, `${piece}/editions`, `${piece}/read/1`, `${piece}/history`, "/"]) {
      await aurel.go(path);
      expect(new URL(aurel.page.url()).pathname).toBe("/sign-in");
    }
    const closed = [
      `/api${piece}/source`,
      `/api${piece}/engraving?view=open&layout=tablet`,
      `/api${piece}/editions/1/reading`,
      `/api${piece}/editions/1/edition.zip`,
      `/api${piece}/editions/1/pianist.pdf`,
    ];
    for (const path of closed) expect([path, (await aurel.fetches(path)).status]).toEqual([path, 401]);
    const reading = JSON.parse(new TextDecoder().decode((await aurel.fetches(`/api/read/${token}`)).bytes));
    expect((await aurel.fetches(`/api/read/${token}/${reading.key}/0`)).status).toBe(200);
    expect((await aurel.fetches(`/api/read/${token.slice(1)}x`)).status).toBe(404);

    await aurel.page.goto(link);
    await seesPage(aurel.page, 1);
    await matthis.page.getByRole("button", { name: "Take back the link for Aurel, who turns" }).click();
    await matthis.page.getByText(/last opened/).waitFor({ state: "detached" });
    // What is on the stand stays there; nothing more is given out.
    await aurel.page.keyboard.press("PageDown");
    await seesPage(aurel.page, 2);
    expect((await aurel.fetches(`/api/read/${token}/${reading.key}/0`)).status).toBe(404);
    expect((await aurel.fetches(`/api/read/${token}`)).status).toBe(404);
    const refused = await aurel.page.reload();
    expect(refused?.status()).toBe(404);
    await aurel.sees(aurel.page.getByRole("heading", { name: "This link opens nothing" }));
    expect(await aurel.page.locator("svg.system, [data-shown]").count()).toBe(0);
    await aurel.leave();
  });

  test("a link is not kept on a device that keeps pieces", async () => {
    await matthis.page.getByLabel("For whom").fill("the jury");
    await matthis.page.getByRole("button", { name: /^Make a link to № 1/ }).click();
    const toJury = await matthis.page.getByLabel(/^The link for the jury/).inputValue();
    await matthis.page.goto(toJury);
    await seesPage(matthis.page, 1);
    await cut(matthisLine, matthis);
    await matthis.page.reload();
    await matthis.sees(matthis.page.getByText(/this page is not kept on this device/));
    await mend(matthisLine, matthis);
  });
});

/** Waits until a page is shown with its music. */
async function seesPage(page: Page, number: number): Promise<void> {
  const shown = page.locator(`section[data-shown][data-drawn][data-page="${number}"]`);
  await shown.locator("g.note, g.mRest, g.rest, g.multiRest").first().waitFor({ state: "visible" });
  if (number > 1) expect(new URL(page.url()).hash).toMatch(/^#page-\d+$/);
}

async function countPages(page: Page): Promise<number> {
  return Number(/ of (\d+)/.exec((await page.getByRole("banner").textContent()) ?? "")?.[1]);
}

const opacityOf = (bar: ReturnType<Page["getByRole"]>) =>
  bar.evaluate((element) => getComputedStyle(element).opacity);

/** Labels of the bars on the page that is shown, as it is told to those who do not see it. */
async function barsShown(page: Page): Promise<number[]> {
  const told = (await page.locator("section[data-shown]").first().textContent()) ?? "";
  return [...told.replace(/^Page \d+:/, "").matchAll(/\d+/g)].map(([bar]) => Number(bar));
}

const firstBarShown = async (page: Page) => (await barsShown(page))[0] ?? Number.NaN;
const lastBarShown = async (page: Page) => (await barsShown(page)).at(-1) ?? Number.NaN;

/** One finger across the middle of the page. */
async function swipe(page: Page, fromX: number, toX: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const at = (x: number) => [{ x, y: 700 }];
  await session.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: at(fromX) });
  for (const share of [0.3, 0.6, 1])
    await session.send("Input.dispatchTouchEvent", {
      type: "touchMove",
      touchPoints: at(fromX + (toX - fromX) * share),
    });
  await session.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await session.detach();
}

/** Waits until a page is put by with the music of so many engravings. */
async function untilKept(page: Page, address: string, engraving: RegExp, count: number): Promise<void> {
  const isKept = async () => {
    const parts = await page.evaluate(async () => {
      const note = await caches.match("/.kept/list");
      const list = (await note?.json()) as { pieces: { parts: { address: string }[] }[] } | undefined;
      return list?.pieces.map(({ parts }) => parts.map(({ address }) => address)) ?? [];
    });
    return parts.some((kept) => {
      const pictures = kept.filter((each) => /\/engraving\/[\w-]+\/\d+$/.test(each));
      const engravings = kept.filter((each) => engraving.test(each));
      return kept.includes(address) && engravings.length === count && pictures.length > 10;
    });
  };
  await expect.poll(isKept, { timeout: 120_000 }).toBe(true);
}
