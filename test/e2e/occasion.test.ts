import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { sayClock } from "@/lib/score/say-clock";
import { database as client } from "@/lib/store/database";
import { performanceParts, toPerformanceRecord } from "@/lib/store/performances/performance-record";
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
const occasion = "House concert, first part";

describe.skipIf(!executable)("an occasion", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let line: Line;
  let nerys: Person;
  let matthis: Person;
  let piece: string;
  /** Path of the programme. */
  let programme: string;

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
    // The phone's clocks go on as they do, and further when the test says so.
    await matthis.page.clock.install();
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    const { id } = await inDatabase(database.url, () => client().piece.findFirstOrThrow());
    piece = `/pieces/${id}`;
  });

  afterAll(async () => {
    await browser?.close();
    await line?.takeDown();
    await product?.stop();
    await database?.drop();
  });

  const readStored = () =>
    inDatabase(database.url, async () => {
      const rows = await client().performance.findMany({
        where: { name: occasion },
        include: performanceParts,
      });
      return rows.map(toPerformanceRecord);
    });
  const next = () => matthis.page.getByRole("button", { name: /here begins|last note/ });
  /** Lets so much of a section go by, and taps where the next one begins. */
  const play = async (seconds: number) => {
    await matthis.page.clock.runFor(seconds * 1000);
    await next().tap();
  };
  const elapsed = async () => {
    const [minutes = 0, seconds = 0] = ((await matthis.page.getByRole("timer").textContent()) ?? "")
      .split(":")
      .map(Number);
    return minutes * 60 + seconds;
  };
  const entry = (person: Person) =>
    person.page.getByRole("listitem", { name: occasion }).filter({ has: person.page.getByRole("heading") });

  test("the soloist logs it on the phone, with time of day and limit", async () => {
    await matthis.go("/performances");
    await matthis.page.getByRole("button", { name: "Log a performance" }).tap();
    await matthis.page.getByLabel("What was it, or is it going to be?").fill(occasion);
    await matthis.page.getByLabel("Begins at").fill("19:30");
    await matthis.page.getByLabel("Limit").fill("9:00");
    await matthis.page.getByLabel("Where").fill("Larkfield; upper room");
    await matthis.page.getByRole("button", { name: "Log it" }).tap();
    await matthis.sees(entry(matthis).getByText("recital, limit 9:00 · 19:30 · Larkfield; upper room"));
  });

  test("and takes it into the calendar", async () => {
    const [stored] = await readStored();
    const file = await matthis.fetches(`/api${piece}/performances/${stored?.id}/calendar.ics`);
    expect([file.status, file.type]).toEqual([200, expect.stringContaining("text/calendar")]);
    const text = new TextDecoder().decode(file.bytes);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    const lines = text.replaceAll("\r\n ", "").split("\r\n");
    expect(lines).toContain(`UID:${stored?.id}`);
    expect(lines).toContain(`DTSTART:${stored?.on.replaceAll("-", "")}T193000`);
    expect(lines).toContain("LOCATION:Larkfield\\; upper room");
    expect(lines.find((one) => one.startsWith("SUMMARY:"))).toMatch(/^SUMMARY:House concert\\, first part: /);
  });

  test("the stopwatch goes on over a reload; a wrong tap is taken back", async () => {
    await matthis.go(`${piece}/stopwatch`);
    const { id } = (await readStored())[0] ?? { id: "" };
    await matthis.page.getByLabel("What for").selectOption(id);
    await matthis.page.getByRole("button", { name: "Start" }).tap();
    await matthis.sees(next());
    await play(40);
    await play(31);
    const before = await elapsed();
    expect(before).toBeGreaterThanOrEqual(71);
    await matthis.page.clock.runFor(5_000);
    await matthis.page.reload();
    await matthis.sees(next());
    await expect.poll(elapsed).toBeGreaterThanOrEqual(before + 5);
    await play(20);
    const here = await next().textContent();
    await play(2);
    await matthis.page.getByRole("button", { name: "Undo last tap" }).tap();
    await expect.poll(() => next().textContent()).toBe(here);
  });

  test("without a connection it is tapped to its end, waits, and is sent once after the server was killed", async () => {
    line.cut();
    await matthis.page.context().setOffline(true);
    while ((await next().count()) > 0) await play(30);
    await matthis.sees(matthis.page.getByRole("heading", { name: "Planned and real" }));
    await matthis.page.getByLabel("To remember").fill("E too slow.");
    await matthis.page.getByRole("button", { name: "Write it down" }).tap();
    await matthis.sees(matthis.page.getByText(/^Not sent: the times of House concert/));

    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
    expect((await readStored()).map(({ sections }) => sections)).toEqual([null]);
    line.mend();
    await matthis.page.context().setOffline(false);
    await matthis.page.clock.runFor(30_000);
    await matthis.page.getByText(/^Not sent: the times of/).waitFor({ state: "detached" });
    const [stored, ...others] = await readStored();
    expect(others).toEqual([]);
    expect(stored).toMatchObject({ remarks: "E too slow.", sections: { byDeviceClock: true } });
    const laps = stored?.sections?.sections.map(({ realSeconds }) => realSeconds ?? 0) ?? [];
    expect((laps[0] ?? 0) >= 40 && (laps[1] ?? 0) >= 31).toBe(true);
    expect(laps.every((lap) => lap > 0)).toBe(true);
    expect(stored?.realSeconds).toBeCloseTo(
      laps.reduce((sum, lap) => sum + lap, 0),
      6,
    );
  });

  test("the pianist sees planned against real, and takes a section as their own timing", async () => {
    const [stored] = await readStored();
    const sections = stored?.sections?.sections ?? [];
    await nerys.go(`${piece}/editions`);
    await nerys.sees(entry(nerys).getByText(sayClock(stored?.realSeconds ?? 0), { exact: true }));
    await nerys.page.getByText(/^Last played as № 1 on /).waitFor();
    await entry(nerys).getByText("Sections and more").click();
    const rows = entry(nerys).getByRole("row");
    await expect.poll(() => rows.count()).toBe(sections.length + 2);
    const [first] = sections;
    const cells = rows.nth(1).getByRole("cell");
    expect((await cells.allTextContents()).slice(0, 2)).toEqual([
      sayClock(first?.plannedSeconds ?? 0),
      sayClock(first?.realSeconds ?? 0),
    ]);
    await rows.nth(1).getByRole("checkbox").check();
    await entry(nerys).getByRole("button", { name: "Take these as our timings" }).click();
    await expect.poll(() => rows.nth(1).getByRole("checkbox").isChecked()).toBe(false);
    const { tempo } = await inDatabase(database.url, () =>
      client().piece.findFirstOrThrow({ select: { tempo: true } }),
    );
    // A cut divides the section: its two timings together are what it took.
    const taken = tempoTermsSchema.parse(tempo).timings.reduce((sum, { seconds }) => sum + seconds, 0);
    expect(taken).toBeCloseTo(first?.realSeconds ?? 0, 2);
  });

  test("it is changed, with its history; taken off, and brought back", async () => {
    await entry(nerys).getByRole("button", { name: "Change", exact: true }).click();
    await nerys.page.getByLabel("Result").fill("asked back");
    await nerys.page.getByRole("button", { name: "Write it down" }).click();
    await nerys.sees(entry(nerys).getByText("asked back"));
    await entry(nerys).getByRole("button", { name: "Its history" }).click();
    await nerys.sees(entry(nerys).getByText("Result: “asked back” instead of nothing"));
    await nerys.sees(entry(nerys).getByText("To remember: “E too slow.” instead of nothing"));
    await entry(nerys).getByRole("button", { name: "Take it off" }).click();
    await entry(nerys).waitFor({ state: "detached" });
    await nerys.page.getByText("Taken off (1)").click();
    await nerys.page.getByRole("button", { name: "Bring it back" }).click();
    await nerys.sees(entry(nerys).getByText("asked back"));
  });

  test("a wrong name, kind, place and limit are corrected, and its history tells what stood there", async () => {
    await entry(nerys).getByText("Sections and more").click();
    const change = (of: Locator) => of.getByRole("button", { name: "Change", exact: true }).click();
    const dialog = nerys.page.getByRole("dialog");
    await change(entry(nerys));
    await dialog.getByLabel("What was it, or is it going to be?").fill("Larkfield evening");
    await dialog.getByLabel("Kind").selectOption("jury");
    await dialog.getByLabel("Where").fill("Larkfield; great room");
    await dialog.getByLabel("Limit").fill("10:00");
    await dialog.getByRole("button", { name: "Write it down" }).click();
    const corrected = nerys.page
      .getByRole("listitem", { name: "Larkfield evening" })
      .filter({ has: nerys.page.getByRole("heading") });
    await nerys.sees(corrected.getByText("jury, limit 10:00 · 19:30 · Larkfield; great room"));
    await corrected.getByRole("button", { name: "Its history" }).click();
    await nerys.sees(corrected.getByText(`Name: “Larkfield evening” instead of “${occasion}”`));
    await nerys.sees(corrected.getByText("Kind: jury instead of recital"));
    await nerys.sees(corrected.getByText("Limit: 10:00 instead of 9:00"));
    await change(corrected);
    await dialog.getByLabel("What was it, or is it going to be?").fill(occasion);
    await dialog.getByRole("button", { name: "Write it down" }).click();
    await nerys.sees(entry(nerys).getByText("jury, limit 10:00 · 19:30 · Larkfield; great room"));
  });

  test("a programme of several entries on one clock, moved by keys; the soloist sees only the own piece", async () => {
    await nerys.go("/performances");
    await nerys.page.getByRole("button", { name: "Draw one up" }).click();
    await nerys.page.getByLabel("What is the occasion?").fill("Evening of two");
    await nerys.page.getByLabel("Limit").fill("25:00");
    await nerys.page.getByRole("button", { name: "Draw it up" }).click();
    await nerys.page.waitForURL(/\/performances\/programme\//);
    programme = new URL(nerys.page.url()).pathname;
    await nerys.page.getByRole("button", { name: "Something in words" }).click();
    await nerys.page.getByLabel("What is played").fill("Two songs, unaccompanied");
    await nerys.page.getByLabel("How long").fill("6:30");
    await nerys.page.getByRole("button", { name: "Write it down" }).click();
    const songs = nerys.page.getByRole("listitem", { name: "Two songs, unaccompanied" });
    await nerys.sees(songs);
    await nerys.page.getByLabel("Put on it").selectOption({ index: 0 });
    await nerys.page.getByRole("button", { name: "Add", exact: true }).click();
    const earlier = nerys.page.getByRole("button", { name: /^Concertino.*: one place earlier$/ });
    await earlier.focus();
    await nerys.page.keyboard.press("Enter");
    await expect
      .poll(() =>
        nerys.page
          .getByRole("listitem", { name: /^Concertino|^Two songs/ })
          .first()
          .textContent(),
      )
      .toContain("Concertino");
    const [stored] = await readStored();
    await nerys.sees(
      nerys.page.getByText(new RegExp(`^${sayClock((stored?.realSeconds ?? 0) + 30 + 390)} `)),
    );

    await matthis.go(programme);
    await matthis.sees(matthis.page.getByRole("heading", { name: "Your piece" }));
    expect(await matthis.page.getByText("Two songs").count()).toBe(0);
    const file = await matthis.fetches(`/api/programmes/${programme.split("/").at(-1)}/calendar.ics`);
    expect(new TextDecoder().decode(file.bytes)).not.toContain("Two songs");
  });

  test("on stage, without a connection, it opens on the tablet, and each edition from it", async () => {
    const tabletLine = await Line.lay();
    const size = { width: 834, height: 1194 };
    const tablet = await Person.sitDown(browser, product.url, size, {
      ...{ proxy: tabletLine.proxy, hasTouch: true },
    });
    const seesPage = (number: number) =>
      tablet.sees(tablet.page.locator(`section[data-shown][data-drawn][data-page="${number}"] g.note`));
    const isHere = tablet.page.getByText(/^All of it is on this device/);
    await tablet.signIn("nerys@example.org", password);
    await tablet.go(programme);
    await tablet.sees(isHere);
    tabletLine.cut();
    await tablet.page.context().setOffline(true);

    // The tablet was put away and is opened again.
    await tablet.page.reload();
    await tablet.sees(tablet.page.getByText(/^No connection\. This is the page as of/));
    await tablet.sees(isHere);
    await tablet.sees(tablet.page.getByRole("heading", { name: "Two songs, unaccompanied" }));
    await tablet.page.getByRole("link", { name: /^Read Concertino.*, № 1, page by page$/ }).tap();
    await seesPage(1);
    await tablet.page.keyboard.press("PageDown");
    await seesPage(2);
    // Also after a reload it leads back to the programme.
    await tablet.page.reload();
    await seesPage(2);
    await tablet.page.getByRole("link", { name: "Close, back to the programme" }).tap();
    await tablet.page.waitForURL(programme);
    await tablet.sees(tablet.page.getByRole("heading", { name: "Evening of two" }));
    await tablet.leave();
    await tabletLine.takeDown();
  });
});
