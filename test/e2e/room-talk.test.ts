import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("two people in the room of a piece", () => {
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
    matthis = await Person.sitDown(browser, product.url);
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]{20,}/);
    piece = new URL(nerys.page.url()).pathname;
    await matthis.go(piece);
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  const comment = (person: Person, words: string): Locator =>
    person.page.locator("[data-comment]").filter({ hasText: words });
  const pencil = (person: Person, bars: string): Locator =>
    person.page.getByRole("article", { name: `In pencil: bars ${bars}` });
  const goesFrom = (what: Locator) => what.first().waitFor({ state: "detached" });

  test("one is named, the other sees what is new, and it is new no more once it was on the screen", async () => {
    const field = matthis.page.getByLabel("Write to Nerys about this cut");
    await field.pressSequentially("Shorter still? @ne");
    await nerys.sees(nerys.page.getByText("Matthis is writing…"));
    await matthis.sees(matthis.page.getByRole("option", { name: "Nerys Quill" }));
    await field.press("Enter");
    await field.pressSequentially("what do you hear?");
    expect(await field.inputValue()).toBe("Shorter still? @Nerys what do you hear?");

    // Whatever else is new on her screen is told in messages of its own.
    const told = nerys.page.waitForResponse(async (response) => {
      const id = await comment(nerys, "what do you hear?").first().getAttribute("data-comment");
      return (response.request().postData() ?? "").includes(`"${id}"`) && response.ok();
    });
    await field.press("Control+Enter");
    const words = comment(nerys, "what do you hear?");
    await nerys.sees(words.getByText("new", { exact: false }));
    await nerys.sees(words.getByText("mentions you"));
    await words.scrollIntoViewIfNeeded();
    await told;

    await nerys.page.reload();
    await nerys.sees(words);
    expect(await words.getAttribute("data-new")).toBeNull();
    await nerys.sees(words.getByText("mentions you"));
  });

  test("words are changed and the change undone, a comment deleted and brought back", async () => {
    const mine = comment(matthis, "what do you hear?");
    await mine.getByRole("button", { name: "Edit" }).click();
    await matthis.page.getByLabel("Your words").fill("Longer after all?");
    await matthis.page.getByRole("button", { name: "Save" }).click();
    await nerys.sees(comment(nerys, "Longer after all?").getByText(/edited/));
    await comment(matthis, "Longer after all?").getByRole("button", { name: "Undo the edit" }).click();
    await nerys.sees(comment(nerys, "what do you hear?"));

    const past = comment(nerys, "what do you hear?");
    await past.getByText("Its past").click();
    await nerys.sees(past.getByText("Longer after all?"));

    await mine.getByRole("button", { name: "Delete" }).click();
    await goesFrom(comment(nerys, "what do you hear?"));
    await matthis.page.getByRole("button", { name: "Bring it back" }).click();
    await nerys.sees(comment(nerys, "what do you hear?"));
  });

  test("who resolved a comment is said, and it can be opened again", async () => {
    const thread = (person: Person) => comment(person, "Nobody hears the inner sixteenths");
    await thread(nerys).getByRole("button", { name: "Resolve" }).click();
    await matthis.page.getByText(/^Resolved, \d/).click();
    await matthis.sees(matthis.page.getByText("Resolved by Nerys"));
    await nerys.page.getByText(/^Resolved, \d/).click();
    await nerys.sees(nerys.page.getByText("Resolved by you").first());
    await thread(matthis).getByRole("button", { name: "Open again" }).click();
    await nerys.sees(thread(nerys).getByRole("button", { name: "Resolve" }));
    await nerys.sees(nerys.page.getByText("Opened again by Matthis"));
  });

  test("a cut is pencilled in, moved by the other, proposed, and the pencil rubbed out", async () => {
    await nerys.page.getByRole("button", { name: "Propose a cut" }).first().click();
    await nerys.chooseBars("20", "27");
    await nerys.page.getByRole("button", { name: "Pencil it in" }).click();
    await nerys.sees(pencil(nerys, "20–26"));
    await matthis.sees(pencil(matthis, "20–26").getByText(/7 bars/));

    await pencil(matthis, "20–26").getByRole("button", { name: "Move" }).click();
    await matthis.chooseBars("20", "28");
    await matthis.page.getByRole("button", { name: "Move it in pencil" }).click();
    await nerys.sees(pencil(nerys, "20–27"));

    await pencil(nerys, "20–27").getByRole("button", { name: "Propose" }).click();
    await matthis.sees(matthis.cut(3, "20–27").getByText("waits for you"));
    await goesFrom(pencil(matthis, "20–27"));
    await matthis.sees(matthis.page.getByText("Rubbed out, 1"));
  });

  test("a former state is looked at and brought back", async () => {
    await nerys.go(`${piece}/history`);
    await nerys.sees(nerys.page.getByText("Matthis moved the pencilled cut of bars 20–26 to bars 20–27."));
    await nerys.page
      .getByRole("link", { name: /Look at this state\. Nerys pencilled in a cut of bars 20–26/ })
      .click();
    await nerys.sees(nerys.page.getByRole("heading", { name: /^As it stood/ }));
    await nerys.sees(nerys.page.getByRole("region", { name: "In pencil" }).getByText("Bars 20–26"));
    await nerys.page.getByRole("button", { name: "Bring this back" }).click();
    await nerys.sees(nerys.page.getByText("The pencilled cut stands at bars 20–26"));
    await nerys.page.getByRole("button", { name: "Bring it back" }).click();
    await nerys.sees(nerys.page.getByText("Brought back,"));
    await matthis.sees(pencil(matthis, "20–26"));

    await nerys.page.getByRole("link", { name: "Pencil", exact: true }).click();
    await nerys.sees(nerys.page.getByText(/Nerys (brought|moved|settled).*bars 20–26/));
    await goesFrom(nerys.page.getByText(/commented on/));
  });

  test("whoever comes back is told what happened meanwhile", async () => {
    await nerys.go(piece);
    await matthis.go("/performances");
    const people = nerys.page.getByRole("list", { name: "People of this piece" });
    await nerys.sees(people.getByText(/not here now/).first());
    await people.locator("li", { hasText: "Matthis" }).getByText("not here now").waitFor();
    await nerys.page.getByLabel("Write to Matthis about this cut").fill("I tried it at the slower tempo.");
    await nerys.page.keyboard.press("Control+Enter");
    await nerys.sees(comment(nerys, "I tried it at the slower tempo."));
    const countNew = async () => {
      await matthis.go("/");
      await matthis.sees(matthis.page.getByRole("heading", { name: "Pieces I prepare" }));
      return matthis.page.getByText(/new comment/).allTextContents();
    };
    await expect.poll(countNew).toEqual(["1 new comment"]);

    await matthis.go(piece);
    await matthis.sees(matthis.page.getByRole("heading", { name: /^Since you were last here/ }));
    await matthis.page.getByRole("button", { name: /^wrote a comment about cut \d/ }).click();
    await matthis.sees(comment(matthis, "I tried it at the slower tempo.").getByText("new"));
    await matthis.page.getByRole("button", { name: "Put away" }).click();
    await goesFrom(matthis.page.getByRole("heading", { name: /^Since you were last here/ }));
    await expect.poll(countNew).toEqual([]);
  });

  test("pages and rooms of one process share one Yjs", () => {
    // Yjs says so itself when a second copy of it is loaded.
    expect(product.output()).not.toContain("already imported");
  });
});
