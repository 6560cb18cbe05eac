import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findBrowser, launchBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
const password = "a rehearsal pencil";

describe.skipIf(executable === null)("the note editor", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let nerys: Person;
  let hands = "";

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    nerys = await Person.sitDown(browser, product.url);
    await nerys.signIn("nerys@example.org", password);
    const piece = await nerys.page.locator('a[href^="/pieces/"]').first().getAttribute("href");
    hands = `${(piece ?? "").split("?")[0]}/hands`;
  });
  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  const editor = () => nerys.page.getByRole("region", { name: "Write your own" });
  const notes = () => editor().locator("[data-event]");
  const named = (name: string) => editor().getByRole("button", { name, exact: true });
  const undo = () => editor().getByRole("button", { name: "Undo" });

  async function open(): Promise<void> {
    await nerys.go(hands);
    await nerys.page.getByRole("button", { name: "Write my own" }).click();
    await notes().first().waitFor({ state: "attached" });
    // What comes later would move what is pressed: the print above, and what is judged below.
    const print = nerys.page.getByRole("region", { name: "As the reduction prints it" });
    await print.locator("[data-drawn]").first().waitFor({ state: "attached" });
    await nerys.sees(editor().getByText(/^printed \d+/));
  }

  async function press(note: Locator): Promise<void> {
    await note.scrollIntoViewIfNeeded();
    const box = await note.boundingBox();
    if (!box) throw new Error("the note is not drawn");
    await nerys.page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  }

  test("takes a chord at a press, a note of it at the second, and changes what is taken by keys", async () => {
    await open();
    const chord = "G 1 and G 2, a quarter, left hand, bar 112, beat 4";
    await press(named(chord));
    await nerys.sees(editor().getByText(chord));
    await press(named(chord));
    await nerys.sees(editor().getByText(/^G [12] of/));
    await nerys.page.keyboard.press("Delete");
    await nerys.sees(editor().getByText(/^G [12], a quarter, left hand, bar 112, beat 4/));
    // The keys go on at the same note, when it is drawn again.
    await named("G 1, a quarter, left hand, bar 112, beat 4")
      .or(named("G 2, a quarter, left hand, bar 112, beat 4"))
      .waitFor({ state: "attached" });
    await nerys.page.keyboard.press("Shift+ArrowUp");
    await nerys.sees(editor().getByText(/^G [23], a quarter, left hand, bar 112, beat 4/));
    await nerys.page.keyboard.press("d");
    await nerys.sees(editor().getByText(/^D \d of D \d and G [23]|^D \d of G [23] and D \d/));
    await nerys.page.keyboard.press("x");
    await nerys.sees(editor().getByText(/accented, a quarter, left hand, bar 112, beat 4/));
  });

  test("says what cannot be done, and changes nothing then", async () => {
    await nerys.page.keyboard.press("ArrowLeft");
    await nerys.page.keyboard.press("l");
    await nerys.sees(editor().getByText("No note of this chord comes again in the next."));
  });

  test("judges while it is written, and undoes step by step", async () => {
    const rows = editor().locator("[aria-busy=false]");
    await nerys.sees(rows.getByText(/^printed \d+, awkward → \d+, (easy|awkward|not playable)/));
    for (let step = 0; step < 4; step += 1) await undo().click();
    await expect.poll(() => undo().isDisabled()).toBe(true);
    await named("G 1 and G 2, a quarter, left hand, bar 112, beat 4").waitFor({ state: "attached" });
  });

  test("goes with Tab from event to event, each with its name", async () => {
    await notes().first().focus();
    const first = await nerys.page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
    await nerys.page.keyboard.press("Tab");
    const second = await nerys.page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
    expect([first, second]).toEqual([
      expect.stringMatching(/right hand, bar 112, beat 1$/),
      expect.stringMatching(/left hand, bar 112, beat 1$/),
    ]);
  });

  test("has what was written after a reload, and asks before it is left", async () => {
    await press(named("G 1 and G 2, a quarter, left hand, bar 112, beat 4"));
    await nerys.page.keyboard.press("r");
    const rolled = "G 1 and G 2, rolled, a quarter, left hand, bar 112, beat 4";
    await named(rolled).waitFor({ state: "attached" });
    await open();
    await nerys.sees(editor().getByText("What you wrote here before is still there."));
    await named(rolled).waitFor({ state: "attached" });
    await editor().getByRole("button", { name: "Leave" }).click();
    await nerys.page.getByRole("button", { name: "Go on writing" }).click();
    await nerys.sees(editor());
  });

  test("plays what is written", async () => {
    await editor().getByRole("button", { name: "Listen" }).click();
    await nerys.sees(editor().getByRole("button", { name: "Stop" }));
    await editor().getByRole("button", { name: "Stop" }).click();
    await nerys.sees(editor().getByRole("button", { name: "Listen" }));
  });

  test("keeps it, and what is kept stands after a reload", async () => {
    await editor().getByLabel("What you did, in a few words").fill("a rolled fourth beat");
    await editor().getByRole("button", { name: "Keep" }).click();
    await nerys.page.getByRole("radio", { name: /^Only me/ }).check();
    await nerys.page.getByRole("button", { name: "Keep it" }).click();
    const kept = nerys.page.getByRole("region", { name: "Rewrite 1", exact: true });
    await nerys.sees(kept.getByText(/a rolled fourth beat/i));
    await nerys.go(hands);
    await nerys.page.getByRole("region", { name: "Awkward at tempo" }).locator("ol button").first().click();
    await nerys.sees(kept.getByText(/a rolled fourth beat/i));
  });
});
