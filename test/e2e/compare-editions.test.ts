import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { database as client } from "@/lib/store/database";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { inDatabase } from "./in-database";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("editions compared, brought back, and prepared for another occasion", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let nerys: Person;
  let matthis: Person;
  /** Path of the first piece, and later of the branch. */
  let jury: string;
  let recital: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    nerys = await Person.sitDown(browser, product.url);
    matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 }, { hasTouch: true });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    jury = new URL(nerys.page.url()).pathname;
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  const onScore = (person: Person) => person.page.getByRole("region", { name: "On the score" });

  /** The proposal states of a piece by number, as they are stored. */
  const statesOf = (piece: string) =>
    inDatabase(database.url, async () => {
      const rows = await client().proposal.findMany({
        where: { pieceId: piece.split("/").at(-1) ?? "" },
        orderBy: [{ number: "asc" }, { createdAt: "asc" }],
      });
      return rows.map(({ number, state }) => `${number} ${state}`);
    });

  /** A player's yes to freezing. A page that was only just opened may not hear the first press yet. */
  const freeze = (person: Person, number: number, done: RegExp) =>
    expect
      .poll(
        async () => {
          const button = person.page.getByRole("button", { name: `Freeze as № ${number}` });
          if (await button.isEnabled({ timeout: 5_000 }).catch(() => false)) await button.click();
          await person.page
            .getByText(done)
            .first()
            .waitFor({ timeout: 10_000 })
            .catch(() => undefined);
          return person.page.getByText(done).count();
        },
        { timeout: 240_000 },
      )
      .toBeGreaterThan(0);

  test("two editions lie on the score above each other, with what one lacks folded", async () => {
    await nerys.cut(2).getByRole("button", { name: "Agree" }).click();
    await nerys.sees(nerys.cut(2).getByText("agreed", { exact: true }));
    await nerys.go(`${jury}/editions?from=1&to=working`);
    await nerys.page
      .getByRole("button", { name: /^On the score: change 1/ })
      .first()
      .click();
    // It is engraved for this width first, which takes its time on a busy machine.
    await onScore(nerys).locator("g.note").first().waitFor({ state: "attached", timeout: 240_000 });
    await nerys.sees(onScore(nerys).getByText("bars 104–111 cut as it stands"));
    await nerys.sees(onScore(nerys).getByText("only in № 1", { exact: true }));
    await expect.poll(() => new URL(nerys.page.url()).searchParams.get("change")).toBe("1");

    // The page is read again when something of it is decided: it stays the page that it is, with its change open.
    await nerys.page.evaluate(() => Object.assign(window, { isSamePage: true }));
    await nerys.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await nerys.sees(nerys.page.getByRole("button", { name: "Take my yes back" }));
    await nerys.page.getByRole("button", { name: "Take my yes back" }).click();
    await nerys.sees(nerys.page.getByRole("button", { name: "Freeze as № 2" }));
    await nerys.sees(onScore(nerys).getByText("bars 104–111 cut as it stands"));
    await expect.poll(() => new URL(nerys.page.url()).searchParams.get("change")).toBe("1");
    expect(await nerys.page.evaluate(() => "isSamePage" in window)).toBe(true);

    // By key to the next change and back; the address keeps it over a reload.
    await onScore(nerys).press("ArrowRight");
    await nerys.sees(onScore(nerys).getByRole("heading", { name: /^Change 2 of/ }));
    await expect.poll(() => new URL(nerys.page.url()).searchParams.get("change")).toBe("2");
    await nerys.page.reload();
    await nerys.sees(onScore(nerys).getByRole("heading", { name: /^Change 2 of/ }));
    await onScore(nerys).getByRole("button", { name: "The one before" }).click();
    await nerys.sees(onScore(nerys).getByText("bars 104–111 cut as it stands"));
    await onScore(nerys).getByRole("button", { name: "Close the score" }).click();
    await expect.poll(() => onScore(nerys).count()).toBe(0);
  });

  test("a bar is found in every version, and what stood then is told", async () => {
    await nerys.page.getByLabel("Where is bar").fill("106");
    await nerys.page.getByRole("button", { name: "Find it" }).click();
    const found = nerys.page.getByRole("region", { name: "Find a bar" });
    await nerys.sees(found.getByText("cut (bars 104–111)"));
    await nerys.sees(found.getByText(/the \d+(st|nd|rd|th) bar played/));
    await nerys.page.getByLabel("Where is bar").fill("999");
    await nerys.page.getByRole("button", { name: "Find it" }).click();
    await nerys.sees(found.getByText(/There is no bar “999”/));

    const occasion = nerys.page.locator("option", { hasText: /^Mock examination/ });
    const then = nerys.page.getByLabel("In a month, or on an occasion");
    await then.selectOption({ label: (await occasion.textContent()) ?? "" });
    const stood = nerys.page.getByRole("region", { name: "What did we play then?" });
    await nerys.sees(stood.getByText(/played in 7:41/));
    await stood.getByRole("link", { name: "Compare № 1 with now" }).click();
    await nerys.page.waitForURL(/from=1&to=working/);
  });

  test("an old edition is brought back as a proposal, after a look at what that does", async () => {
    await nerys.page.getByRole("button", { name: "Bring № 1 back as a proposal" }).click();
    const dialog = nerys.page.getByRole("dialog");
    await nerys.sees(dialog.getByText("Cut 2 (bars 104–111) is reopened: the bars are played again."));
    expect(await statesOf(jury)).toEqual(["1 agreed", "2 agreed"]);
    await dialog.getByRole("button", { name: "Bring № 1 back" }).click();
    await expect.poll(() => dialog.count()).toBe(0);
    expect(await statesOf(jury)).toEqual(["1 agreed", "2 reopened"]);
  });

  test("the music is prepared for a recital, and both agree there", async () => {
    await nerys.page.getByRole("button", { name: "Prepare it for another occasion" }).click();
    const dialog = nerys.page.getByRole("dialog");
    await dialog.getByLabel("The other occasion").fill("Recital");
    await dialog.getByLabel("What this one is for").fill("Jury");
    await dialog.getByLabel("Limit").fill("15:00");
    await dialog.getByRole("button", { name: "Prepare it", exact: true }).click();
    await nerys.page.waitForURL(
      (url) => !url.pathname.startsWith(jury) && url.pathname.endsWith("/editions"),
    );
    recital = new URL(nerys.page.url()).pathname.replace(/\/editions$/, "");
    expect(await statesOf(recital)).toEqual(["1 open"]);

    // He sees both under one title, and goes from the one to the other by the switch.
    await matthis.go("/");
    await matthis.sees(matthis.page.getByRole("link", { name: /, Recital$/ }));
    await matthis.go(jury);
    await matthis.page.getByLabel("Occasion").last().selectOption({ label: "Recital" });
    await matthis.page.waitForURL(new RegExp(`${recital}$`));
    await matthis.page.getByRole("button", { name: /^Cuts/ }).click();
    await matthis.cut(1, "9–16").getByRole("button", { name: "Agree" }).click();
    await matthis.sees(matthis.cut(1).getByText("agreed", { exact: true }));
    // His answer changed what she looks at: she looks again before she can say yes.
    await nerys.page.getByRole("button", { name: "I have seen what changed" }).click();
    await nerys.sees(nerys.page.getByRole("button", { name: "Freeze as № 1" }));
    // The first piece is as it was.
    expect(await statesOf(jury)).toEqual(["1 agreed", "2 reopened"]);
  });

  test("it is all there after the server was killed", async () => {
    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
    await nerys.page.reload();
    await nerys.sees(nerys.page.getByRole("button", { name: "Freeze as № 1" }));
    expect(await statesOf(recital)).toEqual(["1 agreed"]);
    await freeze(nerys, 1, /Take my yes back/);
    await matthis.go(`${recital}/editions`);
    await freeze(matthis, 1, /№ 1 is what stands/);
  });

  test("what the jury version gets is seen in the recital, and asked for there", async () => {
    await nerys.go(jury);
    await nerys.page.getByRole("button", { name: "Propose a cut" }).click();
    await nerys.chooseBars("21", "25");
    await nerys.page.getByRole("button", { name: "Propose to Matthis" }).click();
    await nerys.sees(nerys.cut(3, "21–24"));
    await matthis.go(jury);
    await matthis.page.getByRole("button", { name: /^Cuts/ }).click();
    await matthis.cut(3, "21–24").getByRole("button", { name: "Agree" }).click();
    await matthis.sees(matthis.cut(3).getByText("agreed", { exact: true }));
    for (const person of [nerys, matthis]) await person.go(`${jury}/editions`);
    await freeze(nerys, 2, /Take my yes back/);
    await freeze(matthis, 2, /№ 2 is what stands/);

    await nerys.go(`${recital}/editions`);
    const lacks = nerys.page.getByRole("region", { name: "What Jury has that this one lacks" });
    await nerys.sees(lacks.getByText(/bars 21–24/));
    await lacks.getByRole("button", { name: "Propose here" }).first().click();
    await nerys.sees(lacks.getByText(/is put forward here and waits for an answer/));
    expect(await statesOf(recital)).toEqual(["1 agreed", "2 open"]);
    await matthis.go(recital);
    await matthis.page.getByRole("button", { name: /^Cuts/ }).click();
    await matthis.cut(2, "21–24").getByRole("button", { name: "Agree" }).click();
    await matthis.sees(matthis.cut(2).getByText("agreed", { exact: true }));
    expect(await statesOf(recital)).toEqual(["1 agreed", "2 agreed"]);
  });

  test("what was played is another edition only when that is said", async () => {
    await nerys.go(`${jury}/editions`);
    const played = nerys.page
      .getByRole("listitem", { name: "Mock examination" })
      .filter({ has: nerys.page.getByRole("heading") });
    await played.getByText("More", { exact: true }).click();
    await played.getByRole("button", { name: "Change", exact: true }).click();
    const dialog = nerys.page.getByRole("dialog");
    await dialog.getByLabel("Edition").selectOption("2");
    await dialog.getByRole("checkbox", { name: /^№ 2 was played, not № 1/ }).check();
    await dialog.getByRole("button", { name: "Write it down" }).click();
    await expect.poll(() => dialog.count()).toBe(0);
    await played.getByRole("button", { name: "Its history" }).click();
    await nerys.sees(played.getByText("Edition: № 2 instead of № 1"));
  });

  test("an occasion gets another name, and its switch says it", async () => {
    await nerys.go(`${recital}/settings`);
    const section = nerys.page.getByRole("region", { name: "The occasion" });
    const field = section.getByLabel("It is for");
    await field.fill("jury");
    await section.getByRole("button", { name: "Save" }).click();
    await nerys.sees(section.getByText("There is one for “Jury” already. Give this one another name."));
    await field.fill("Spring recital");
    await section.getByRole("button", { name: "Save" }).click();
    const occasions = nerys.page.getByRole("navigation", { name: "Occasion" });
    await nerys.sees(occasions.getByRole("link", { name: "Spring recital" }));
    await matthis.go(jury);
    const options = matthis.page.getByLabel("Occasion").last().locator("option");
    await expect.poll(() => options.allTextContents()).toEqual(["Jury", "Spring recital"]);
  });
});
