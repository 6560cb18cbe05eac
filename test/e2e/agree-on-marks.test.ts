import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, test } from "vitest";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("cues, printed comments and the yes to them", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  test("what changes under one's finger is shown before it can be agreed to", async () => {
    const nerys = await Person.sitDown(browser, product.url);
    const matthis = await Person.sitDown(browser, product.url, { width: 834, height: 1194 });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    const piece = new URL(nerys.page.url()).pathname;
    await nerys.seesNotes();
    await nerys.cut(2).getByRole("button", { name: "Agree" }).click();

    // She writes a cue over the reduction; it stands over his score at once.
    await nerys.page.getByRole("button", { name: "Open", exact: true }).click();
    await nerys.page.locator("rect[data-bar='0']").scrollIntoViewIfNeeded();
    await nerys.page.locator("rect[data-bar='2']").click();
    await nerys.page.getByRole("button", { name: "Cue…" }).click();
    await nerys.page.getByRole("button", { name: "Fl.", exact: true }).click();
    await nerys.sees(nerys.page.getByRole("button", { name: "Cue Fl., bar 2, Nerys" }));
    await matthis.go(piece);
    await matthis.page.getByRole("button", { name: "Open", exact: true }).click();
    const seen = matthis.page.getByRole("button", { name: "Cue Fl., bar 2, Nerys" });
    await matthis.sees(seen);
    await seen.click();
    await matthis.sees(matthis.page.getByText("only Nerys changes it"));

    // Both look at what they would agree to; she says yes, and then takes her cue off.
    await matthis.go(`${piece}/editions`);
    await nerys.go(`${piece}/editions`);
    await matthis.sees(matthis.page.getByText("Fl. written over bar 2."));
    await nerys.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await matthis.sees(matthis.page.getByText(/Nerys is ready/));
    await nerys.go(piece);
    await nerys.page.getByRole("button", { name: "Open", exact: true }).click();
    await nerys.page.getByRole("button", { name: "Cue Fl., bar 2, Nerys" }).click();
    await nerys.page.getByRole("button", { name: "Take off" }).click();
    await nerys.sees(nerys.page.getByRole("button", { name: "Put it back" }));

    // His list says so; her yes is over; he looks first, and only then agrees.
    await matthis.sees(matthis.page.getByText("Something changed while you looked."));
    await matthis.sees(matthis.page.getByText("No longer: Fl. written over bar 2."));
    await matthis.sees(matthis.page.getByText(/Nerys agreed to an earlier state of it/));
    await matthis.page.getByRole("button", { name: "I have seen what changed" }).click();
    await matthis.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await matthis.sees(matthis.page.getByText(/Nerys is asked/));

    // He no longer wants his remark printed: she sees what is new to her since her yes.
    await nerys.go(`${piece}/editions`);
    await nerys.sees(nerys.page.getByText(/Since your yes of/));
    await nerys.sees(nerys.page.getByText("Fl. taken off bar 2."));
    await matthis.go(piece);
    await matthis.page.getByRole("button", { name: /^Comments/ }).click();
    await matthis.page.getByRole("checkbox", { name: "Print it in the edition", checked: true }).uncheck();
    await nerys.sees(nerys.page.getByText("I have seen what changed"));
    await nerys.page.getByRole("button", { name: "I have seen what changed" }).click();
    await nerys.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await matthis.go(`${piece}/editions`);
    await matthis.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await nerys.sees(nerys.page.getByRole("list", { name: "Files of № 2" }));
  });
});
