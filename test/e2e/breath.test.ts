import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readBreaths } from "@/lib/room/read-breaths";
import { database as client } from "@/lib/store/database";
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

describe.skipIf(!executable)("breath and rest", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let line: Line;
  let nerys: Person;
  let matthis: Person;
  let screen: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    line = await Line.lay();
    nerys = await Person.sitDown(browser, product.url, { width: 1440, height: 900 });
    matthis = await Person.sitDown(
      browser,
      product.url,
      { width: 390, height: 844 },
      { proxy: line.proxy, hasTouch: true },
    );
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    const piece = new URL(nerys.page.url()).pathname;
    await nerys.page.getByRole("link", { name: "Breath and rest" }).click();
    screen = `${piece}/breath`;
    await nerys.page.waitForURL(`**${screen}`);
    await matthis.go(screen);
    for (const person of [nerys, matthis]) await person.sees(part(person).locator("g.note"));
  });

  afterAll(async () => {
    await browser?.close();
    await line?.takeDown();
    await product?.stop();
    await database?.drop();
  });

  const part = (person: Person) => person.page.getByRole("region", { name: "Solo part", exact: true });
  const here = (person: Person) => person.page.getByRole("group", { name: "The note you are at" });
  const openPane = (person: Person, name: RegExp) => person.page.getByRole("button", { name }).click();
  const need = (person: Person) => person.page.getByRole("listitem", { name: "0:20 before letter G" });
  /** New breaths over the part, in the soloist's ink. */
  const newBreaths = (person: Person) => part(person).locator('[data-breath="so"]');
  const isAllSaved = (person: Person) =>
    person.page
      .getByText(/not sent|Saving|No connection/)
      .first()
      .waitFor({ state: "detached" });

  /** Touches the part just right of a note, as a finger would. */
  async function touchAfter(person: Person, note: Locator): Promise<void> {
    await note.scrollIntoViewIfNeeded();
    const box = await note.boundingBox();
    if (!box) throw new Error("the note is not drawn");
    await person.page.touchscreen.tap(box.x + box.width + 4, box.y + box.height / 2);
  }

  /** Times from breath to breath that stand under the first line with notes. */
  async function readSeconds(person: Person): Promise<string[]> {
    const row = part(person)
      .locator("li")
      .filter({ has: person.page.locator("g.measure#b29") });
    const words = await row.locator("svg text").allTextContents();
    return words.filter((text) => /^[\d.]+ s/.test(text));
  }

  const readStored = () =>
    inDatabase(database.url, async () => {
      const room = await loadRoom(screen.split("/").at(-2) ?? "");
      const needs = await client().restNeed.findMany({ orderBy: { createdAt: "asc" } });
      return {
        breaths: readBreaths(room?.doc ?? openRoomDoc()).length,
        needs: needs.map(({ releasedById, removedAt }) => [releasedById !== null, removedAt !== null]),
      };
    });

  /** The second note of bar 29: inside the first stretch that is played. */
  const note = (person: Person) => part(person).locator("g.measure#b29 g.note").nth(1);

  test("the soloist puts a breath in by one touch, sees the times change, and the pianist sees it", async () => {
    await expect.poll(() => readSeconds(matthis)).not.toHaveLength(0);
    const before = await readSeconds(matthis);
    expect(before.some((text) => text.includes("without it"))).toBe(false);
    await touchAfter(matthis, note(matthis));
    await matthis.sees(here(matthis).getByText(/^Bar 29, .* · breath after it$/));
    await matthis.sees(part(matthis).getByText(/ s without it$/));
    expect(await readSeconds(matthis)).not.toEqual(before);
    await expect.poll(() => newBreaths(nerys).count()).toBe(1);

    // Again takes it away, and it can be brought back as it was.
    await touchAfter(matthis, note(matthis));
    await matthis.sees(here(matthis).getByText(/^Bar 29, .* · no breath after it$/));
    await expect.poll(() => newBreaths(nerys).count()).toBe(0);
    await expect.poll(() => readSeconds(matthis)).toEqual(before);
    await matthis.page.getByRole("button", { name: "Bring it back" }).click();
    await expect.poll(() => newBreaths(nerys).count()).toBe(1);
  });

  test("by keys: to the next note, and a breath after it", async () => {
    await part(matthis).focus();
    await matthis.page.keyboard.press("ArrowRight");
    await matthis.sees(here(matthis).getByText(/ · no breath after it$/));
    await matthis.page.keyboard.press("b");
    await matthis.sees(here(matthis).getByText(/ · breath after it$/));
    await expect.poll(() => newBreaths(nerys).count()).toBe(2);
    await matthis.page.keyboard.press("b");
    await expect.poll(() => newBreaths(nerys).count()).toBe(1);
  });

  test("what would help is suggested with its reasons and taken by one touch", async () => {
    await openPane(matthis, /^Breaths/);
    const list = matthis.page.getByRole("region", { name: "Where a breath would help" });
    const take = list.getByRole("button", { name: "Put it in" });
    await matthis.sees(take);
    const count = await take.count();
    await matthis.sees(list.getByText(/ s before it, .* s after$/));
    await take.first().tap();
    await expect.poll(() => take.count()).toBeLessThan(count);
    await expect.poll(() => newBreaths(nerys).count()).toBeGreaterThan(0);
    await isAllSaved(matthis);
    await openPane(matthis, /^Solo part/);
  });

  test("the soloist notes a rest; the pianist sees it and cannot let it go; the soloist can, and hold it again", async () => {
    await openPane(matthis, /^Rests/);
    await matthis.page.getByRole("button", { name: "Note a rest I need" }).click();
    const entries = matthis.page.getByLabel("Before which entry");
    const wanted = await entries.locator("option").allTextContents();
    await entries.selectOption({ label: wanted.find((label) => label.startsWith("letter G")) ?? "" });
    await matthis.page.getByLabel("How long at least").fill("soon");
    await matthis.page.getByRole("button", { name: "Note it", exact: true }).click();
    await matthis.sees(matthis.page.getByText("Write seconds (20) or minutes and seconds (1:05)."));
    await matthis.page.getByLabel("How long at least").fill("0:20");
    await matthis.page.getByLabel("What for").selectOption("mute");
    await matthis.page.getByRole("button", { name: "Note it", exact: true }).click();
    await matthis.sees(need(matthis).getByText("for mute"));
    await nerys.sees(need(nerys).getByText(/^Noted by Matthis/));
    expect(await need(nerys).getByRole("button").count()).toBe(0);

    await need(matthis).getByRole("button", { name: "Let it go" }).click();
    await nerys.sees(need(nerys).getByText(/Released by Matthis, \w+ \d+ \w+\.$/));
    await need(matthis).getByRole("button", { name: "Hold it again" }).click();
    await matthis.sees(need(matthis).getByRole("button", { name: "Let it go" }));
    await need(nerys)
      .getByText(/Released by/)
      .waitFor({ state: "detached" });

    await need(matthis).getByRole("button", { name: "Take it off" }).click();
    const off = matthis.page.getByRole("listitem", { name: /^0:20 before/ }).filter({ hasText: "Taken off" });
    await off.getByRole("button", { name: "Bring it back" }).click();
    await nerys.sees(need(nerys).getByText(/^Noted by Matthis/));
  });

  test("the rests under an open proposal", async () => {
    await nerys.page.getByRole("button", { name: "With cut 2" }).click();
    const panel = nerys.page.getByRole("region", { name: "Playing and resting" });
    await nerys.sees(panel.getByText("Playing and resting, with cut 2"));
    const row = nerys.page.getByRole("listitem", { name: "Before letter G" });
    await nerys.sees(row.getByText(/Cut 2, /));
    await nerys.page.getByRole("button", { name: "Agreed cuts" }).click();
  });

  test("the soloist's own numbers are judged by, and read by the pianist", async () => {
    await openPane(matthis, /^Breaths/);
    await matthis.page.getByRole("button", { name: "Set my numbers" }).click();
    await matthis.page.getByLabel("Comfortable on one breath, in seconds").fill("6");
    await matthis.page.getByRole("button", { name: "Keep these numbers" }).click();
    const numbers = nerys.page.getByRole("region", { name: "Matthis’s numbers" });
    await nerys.sees(numbers.getByText("6 s", { exact: true }));
    expect(await numbers.getByRole("button").count()).toBe(0);
    await openPane(matthis, /^Solo part/);
  });

  test("without a network breaths wait, needs say so, and after a crash of the server all is there", async () => {
    await isAllSaved(matthis);
    const stored = await readStored();
    // The first lines are in view before the network goes.
    await part(matthis).evaluate((element) => element.scrollTo({ top: 0 }));
    const other = part(matthis).locator("g.measure#b30 g.note").nth(1);
    await matthis.sees(other);
    line.cut();
    await matthis.page.context().setOffline(true);
    await matthis.sees(matthis.page.getByText(/No connection\. What you write stays here/));
    await touchAfter(matthis, other);
    await matthis.sees(here(matthis).getByText(/^Bar 30, .* · breath after it$/));
    await openPane(matthis, /^Rests/);
    await need(matthis).getByRole("button", { name: "Let it go" }).click();
    await matthis.sees(need(matthis).getByText(/^Not sent: the connection failed\. Nothing was changed/));

    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
    line.mend();
    await matthis.page.context().setOffline(false);
    await isAllSaved(matthis);
    await expect.poll(async () => (await readStored()).breaths).toBe(stored.breaths + 1);
    expect((await readStored()).needs).toEqual(stored.needs);

    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
    for (const person of [nerys, matthis]) await person.go(screen);
    await openPane(matthis, /^Rests/);
    for (const person of [nerys, matthis]) {
      await person.sees(need(person).getByText("for mute"));
      await person.sees(part(person).locator("g.note"));
    }
    expect(await readStored()).toEqual({ breaths: stored.breaths + 1, needs: stored.needs });
    const drawn = part(nerys).locator("[data-breath]:not([data-breath=suggested], [data-breath=ghost])");
    await expect.poll(() => drawn.count()).toBeGreaterThan(0);
  });
});
