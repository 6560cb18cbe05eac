import { readFile } from "node:fs/promises";
import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { readPdf } from "../lib/engrave/pdf/read-pdf";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("printing an edition for both", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let nerys: Person;
  let matthis: Person;
  let screen: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    nerys = await Person.sitDown(browser, product.url, { width: 1440, height: 900 });
    matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    // Not by way of the desk: its score would be engraved first.
    const desk = await nerys.page.getByRole("link", { name: "Look and answer" }).getAttribute("href");
    await nerys.go(`${new URL(desk ?? "", product.url).pathname}/editions`);
    await nerys.page
      .getByRole("link", { name: /^Print № \d+ for both$/ })
      .first()
      .click();
    await nerys.page.waitForURL("**/print?**");
    screen = new URL(nerys.page.url()).pathname;
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  const part = ({ page }: Person, name: "Pianist’s score" | "Soloist’s part") =>
    page.getByRole("region", { name });
  const pagesOf = (region: Locator) => region.getByRole("img", { name: /^Page \d+ as it will be printed/ });
  /** No other pages are being made. */
  const isLaidOut = async (region: Locator) => {
    // Both parts are engraved, one after the other.
    await pagesOf(region).first().waitFor({ state: "visible", timeout: 240_000 });
    await region.getByText("Laying out the pages").waitFor({ state: "detached" });
  };

  async function download(person: Person, region: Locator, name: string) {
    const [file] = await Promise.all([
      person.page.waitForEvent("download"),
      region.getByRole("button", { name }).click(),
    ]);
    return {
      name: file.suggestedFilename(),
      pdf: await readPdf(new Uint8Array(await readFile(await file.path()))),
    };
  }

  test("shows both parts' pages as they will be printed, with what each turn asks", async () => {
    for (const name of ["Pianist’s score", "Soloist’s part"] as const) {
      const region = part(nerys, name);
      await isLaidOut(region);
      const count = await pagesOf(region).count();
      expect(await region.getByText(new RegExp(`^${count} pages?, `)).count()).toBe(1);
      expect(await region.getByText(/^(Easy|Quick|Bad) turn\.$/).count()).toBe(count - 1);
      // The picture is there and drawn.
      const first = pagesOf(region).first();
      await expect
        .poll(() => first.evaluate((image: HTMLImageElement) => image.naturalWidth))
        .toBeGreaterThan(0);
    }
  });

  test("keeps what is chosen in the address, and lays the pages out anew", async () => {
    const region = part(nerys, "Soloist’s part");
    const before = await pagesOf(region).first().getAttribute("src");
    await nerys.page.getByRole("button", { name: "Tablet", exact: true }).click();
    await region.getByLabel(/Piano lead-ins/).check();
    await expect.poll(() => new URL(nerys.page.url()).searchParams.get("paper")).toBe("tablet");
    await nerys.page.reload();
    await isLaidOut(region);
    expect(
      await nerys.page.getByRole("button", { name: "Tablet", exact: true }).getAttribute("aria-pressed"),
    ).toBe("true");
    expect(await region.getByLabel(/Piano lead-ins/).isChecked()).toBe(true);
    expect(await pagesOf(region).first().getAttribute("src")).not.toBe(before);
    const { width, height } = (await pagesOf(region).first().boundingBox()) ?? { width: 0, height: 1 };
    expect(width / height).toBeCloseTo(3 / 4, 1);
  });

  test("a break that is pinned stands in the file, is seen by the other, and can be taken off", async () => {
    await nerys.page.getByRole("button", { name: "Letter", exact: true }).click();
    const region = part(nerys, "Pianist’s score");
    await isLaidOut(region);
    await region.getByLabel("Begin a page at bar").fill("37");
    await region.getByRole("button", { name: "Pin a break here" }).click();
    await nerys.sees(region.getByText("Pinned: a page begins at bar 37."));
    await nerys.sees(region.getByRole("button", { name: "Take the pin off bar 37" }));
    await isLaidOut(region);
    const pageWithPin = region.getByRole("listitem").filter({ hasText: "Pinned at bar 37 by Nerys" });
    const caption = (await pageWithPin.locator("figcaption").textContent()) ?? "";
    const number = Number(/^Page (\d+)/.exec(caption)?.[1]);

    const { name, pdf } = await download(nerys, region, "Pianist’s PDF");
    expect(name).toMatch(/pianist\.pdf$/);
    expect(pdf.size).toEqual([612, 792]);
    expect(pdf.pages).toHaveLength(await pagesOf(region).count());
    expect(pdf.pages[number - 1]?.split(/\s+/)).toContain("37");
    expect(pdf.pages[number - 2]?.split(/\s+/)).not.toContain("37");
    expect(pdf.pages[0]).toContain(`page 1 of ${pdf.pages.length}`);
    expect(pdf.hasAllFonts).toBe(true);
    expect(pdf.language).toBe("en");

    await matthis.go(`${screen}?paper=Letter`);
    const his = part(matthis, "Pianist’s score");
    await isLaidOut(his);
    await matthis.sees(his.getByText(/Pinned at bar 37 by Nerys/));
    await his.getByRole("button", { name: "Take the pin off bar 37" }).click();
    await matthis.sees(his.getByText("The pin is off."));
    await his.getByText(/Pinned at bar 37/).waitFor({ state: "detached" });
    await nerys.page.reload();
    await isLaidOut(region);
    expect(await region.getByText(/Pinned at bar/).count()).toBe(0);
  });

  test("a bar that is not printed pins nothing and says so", async () => {
    const region = part(nerys, "Pianist’s score");
    await region.getByLabel("Begin a page at bar").fill("9999");
    await region.getByRole("button", { name: "Pin a break here" }).click();
    await nerys.sees(region.getByText("No bar 9999 is printed in this part."));
  });

  test("the sheets beside the parts tell what is cut and what changed", async () => {
    const main = nerys.page.getByRole("main");
    const changes = await download(nerys, main, "What changed");
    expect(changes.pdf.pages).toHaveLength(1);
    expect(changes.pdf.pages[0]).toMatch(/What changed, to № \d+/);
    expect(changes.pdf.pages[0]).toMatch(/\d+:\d\d/);
    const cuts = await download(nerys, main, "Cut sheet");
    expect(cuts.pdf.pages[0]).toContain("Cut sheet");
  });

  test.each([
    [390, 844],
    [834, 1194],
    [1440, 900],
  ])("has no sideways overflow at %i × %i", async (width, height) => {
    await nerys.page.setViewportSize({ width, height });
    const over = await nerys.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
  });
});
