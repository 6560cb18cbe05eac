import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { database as client } from "@/lib/store/database";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { type Hearing, hearPage } from "./hearing";
import { inDatabase } from "./in-database";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

/** An empty meter reads exactly 0. */
const audible = 1e-4;

// What the demo's music gives for 7:00 with cut 1 agreed and its rests kept: three more cuts, in written order.
const planned = [
  { bars: "1–4", number: 3 },
  { bars: "21–24", number: 4 },
  { bars: "102–111", number: 5 },
] as const;

describe.skipIf(!executable)("planning the cuts together", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let nerys: Person;
  let matthis: Person;
  let piece: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    nerys = await Person.sitDown(browser, product.url);
    await hearPage(nerys.page);
    matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 }, { hasTouch: true });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    piece = new URL(nerys.page.url()).pathname;
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  const length = (person: Person) => person.page.getByRole("slider", { name: /^Length/ });
  const inPlan = (person: Person) => person.page.getByRole("list", { name: "Cuts of this plan" });
  const openPane = (person: Person, name: RegExp) => person.page.getByRole("button", { name }).click();

  async function setLimit(person: Person, limit: string): Promise<void> {
    await person.page.getByLabel("Limit", { exact: true }).fill(limit);
    await person.page.getByRole("button", { name: "Set limit" }).click();
  }

  test("the pianist plans to a limit", async () => {
    await nerys.page.getByRole("link", { name: "Plan", exact: true }).click();
    await nerys.sees(length(nerys));
    await setLimit(nerys, "5:00");
    await nerys.sees(nerys.page.getByText(/No set fits/));
    await setLimit(nerys, "7:00");
    for (const { bars } of planned) await nerys.sees(inPlan(nerys).getByText(`Bars ${bars}`));
    await expect.poll(() => length(nerys).getAttribute("aria-valuetext")).toMatch(/three cuts/);

    // As far as it goes, and back to what the limit asks for.
    await length(nerys).press("End");
    await expect
      .poll(() => inPlan(nerys).getByRole("article").count())
      .toBeGreaterThanOrEqual(planned.length);
    await length(nerys).press("Home");
    await expect.poll(() => inPlan(nerys).getByRole("article").count()).toBe(0);
    await nerys.page.getByRole("button", { name: /best/i }).first().click();
    for (const { bars } of planned) await nerys.sees(inPlan(nerys).getByText(`Bars ${bars}`));
  });

  test("she listens to a join, without and with the cut", async () => {
    const card = inPlan(nerys)
      .getByRole("article")
      .filter({ hasText: `Bars ${planned[2].bars}` });
    const listen = card.getByRole("group", { name: "Listen to this join" });
    await listen.getByLabel("How the join is heard").selectOption({ label: "Both in turn" });
    await listen.getByRole("button", { name: /^Listen/ }).click();
    await nerys.sees(listen.getByRole("button", { name: "Stop" }));
    await nerys.page.waitForFunction(
      (least) =>
        (window as unknown as { hearing(): Hearing }).hearing().levels.some(({ level }) => level > least),
      audible,
    );
    await listen.getByRole("button", { name: "Stop" }).click();
    await nerys.sees(listen.getByRole("button", { name: /^Listen/ }));
  });

  test("she proposes the set in one go, and he reads why", async () => {
    await nerys.page.getByLabel("Your reason").fill("Seven minutes for the jury, and you keep your rests.");
    await nerys.page.getByRole("button", { name: "Propose these 3" }).click();
    await nerys.page.waitForURL(/cut=/);
    await matthis.go(piece);
    await openPane(matthis, /^Cuts/);
    for (const { bars, number } of planned) await matthis.sees(matthis.cut(number, bars));
    const third = matthis.cut(planned[2].number);
    await third.getByRole("button", { name: /^Cut 5/ }).click();
    await matthis.sees(matthis.page.getByText("Seven minutes for the jury, and you keep your rests."));
    await matthis.sees(third.getByText(/within the limit of 7:00/));
  });

  test("he objects to one for his rest, and counter-proposes", async () => {
    await matthis.go(`${piece}/breath`);
    await openPane(matthis, /^Rests/);
    await matthis.page.getByRole("button", { name: "Note a rest I need" }).click();
    const entries = matthis.page.getByLabel("Before which entry");
    const before = entries.locator("option", { hasText: /^letter G/ });
    await before.waitFor({ state: "attached" });
    await entries.selectOption({ label: (await before.textContent()) ?? "" });
    await matthis.page.getByLabel("How long at least").fill("0:29");
    await matthis.page.getByLabel("What for").selectOption("lip");
    await matthis.page.getByRole("button", { name: "Note it", exact: true }).click();
    await matthis.sees(matthis.page.getByRole("listitem", { name: "0:29 before letter G" }));

    // Both see on the card that the cut takes it.
    await matthis.go(`${piece}?cut=`);
    await openPane(matthis, /^Cuts/);
    const card = matthis.cut(5, planned[2].bars);
    await card.getByRole("button", { name: /^Cut 5/ }).click();
    await matthis.sees(card.getByText(/short/));
    await nerys
      .cut(5, planned[2].bars)
      .getByRole("button", { name: /^Cut 5/ })
      .click();
    await nerys.sees(nerys.cut(5).getByText(/short/));

    await card.getByRole("button", { name: "Counter-propose" }).click();
    await matthis.chooseBars("106", "112");
    await matthis.page.getByLabel("Why? (if you like)").fill("I need 0:29 before G: six bars are enough.");
    await matthis.page.getByRole("button", { name: "Propose to Nerys" }).click();
    await nerys.sees(nerys.cut(5, "106–111"));
    await nerys.sees(nerys.page.getByText("I need 0:29 before G: six bars are enough."));
  });

  test("both agree, and it holds when the server comes back", async () => {
    await nerys.cut(5, "106–111").getByRole("button", { name: "Agree" }).click();
    await matthis.sees(matthis.cut(5).getByText("agreed", { exact: true }));
    for (const { number, bars } of planned.slice(0, 2)) {
      await matthis.cut(number, bars).getByRole("button", { name: "Agree" }).click();
      await nerys.sees(nerys.cut(number).getByText("agreed", { exact: true }));
    }
    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
    await nerys.page.reload();
    for (const number of [3, 4, 5]) await nerys.sees(nerys.cut(number).getByText("agreed", { exact: true }));
    const kept = await inDatabase(database.url, () =>
      client().proposal.findMany({ where: { number: { in: [3, 4, 5] } }, orderBy: { createdAt: "asc" } }),
    );
    expect(kept.map(({ number, state }) => [number, state])).toEqual([
      [3, "agreed"],
      [4, "agreed"],
      [5, "superseded"],
      [5, "agreed"],
    ]);
    expect(kept.every(({ why }) => why !== null)).toBe(true);
  });
});
