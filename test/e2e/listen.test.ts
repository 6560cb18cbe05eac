import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readTempoMap } from "@/lib/score/tempo-map";
import { barsAroundJoin } from "@/lib/sound/listen-request";
import { readSchedule } from "@/lib/sound/read-schedule";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { concertino, cutOf } from "../lib/cuts/join/hear-concertino";
import { type Hearing, hearPage } from "./hearing";
import { Line } from "./line";
import { listKept } from "./list-kept";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

/** Below this nothing is heard: an empty meter reads exactly 0, the softest note of the demo 0.002 and more. */
const silence = 1e-4;

/** The cuts of the demo, as its history has them: one is agreed, one waits for the pianist. */
const agreed = cutOf({ from: { bar: "9", quarter: 0 }, to: { bar: "17", quarter: 0 } });
const open = cutOf({ from: { bar: "104", quarter: 0 }, to: { bar: "112", quarter: 0 } });

const loudest = ({ levels }: Hearing, from: number, to: number): number =>
  Math.max(0, ...levels.filter(({ at }) => at >= from && at <= to).map(({ level }) => level));

describe.skipIf(!executable)("listening to a piece", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let nerys: Person;
  let ear: Awaited<ReturnType<typeof hearPage>>;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    nerys = await Person.sitDown(browser, product.url);
    ear = await hearPage(nerys.page);
    await nerys.signIn("nerys@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]{20,}/);
    await nerys.seesNotes();
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  const player = (): Locator => nerys.page.getByRole("group", { name: "How it is played" });
  const listenHere = (): Locator => nerys.page.getByRole("button", { name: "Listen", exact: true }).first();
  /** Waits until the page's own sound clock has come to a moment. */
  const untilMoment = (moment: number) =>
    nerys.page.waitForFunction(
      (at) => (window as unknown as { hearing(): Hearing }).hearing().now >= at,
      moment,
    );
  const untilStruck = (count: number) =>
    nerys.page.waitForFunction(
      (wanted) => (window as unknown as { hearing(): Hearing }).hearing().struck.length >= wanted,
      count,
    );
  const barOnStrip = () =>
    nerys.page
      .locator('[role="slider"] [data-playing]')
      .getAttribute("data-playing")
      .then((text) => Number(text));

  test("nothing sounds and nothing is fetched before somebody presses", async () => {
    const { levels, struck, now } = await ear.listen();
    expect({ levels: levels.length, struck: struck.length, now }).toEqual({ levels: 0, struck: 0, now: 0 });
    await nerys.sees(listenHere());
  });

  test("the piece is heard at the moments of the tempo map, and strip and score follow", async () => {
    await nerys.page.getByRole("button", { name: "How it is played" }).click();
    await player().getByRole("button", { name: "Count-in" }).click();
    await listenHere().click();
    await untilStruck(30);
    const { struck } = await ear.listen();
    const first = struck[0]?.at ?? 0;
    const schedule = readSchedule(concertino, readTempoMap(concertino), {
      kind: "piece",
      cuts: [agreed],
      from: null,
    });
    for (const [index, { midi, at }] of struck.slice(0, 30).entries()) {
      const note = schedule.notes[index];
      expect(midi).toBe(note?.midi);
      expect(Math.abs(at - first - (note?.onsetSeconds ?? Number.NaN))).toBeLessThan(0.001);
    }
    await untilMoment(first + 0.5);
    const sounding = await ear.listen();
    // The meter looks back 46 ms, so a moment is judged by what it sees a little later.
    expect(loudest(sounding, 0, first - 0.01)).toBeLessThan(silence);
    expect(loudest(sounding, first + 0.1, first + 0.5)).toBeGreaterThan(10 * silence);

    await nerys.page.locator('[role="slider"] [data-playing="2"]').waitFor({ state: "attached" });
    await nerys.sees(nerys.page.getByRole("region", { name: "Score" }).locator("[data-playing]"));
    expect(await player().textContent()).toMatch(/bar \d+ · 0:0\d of \d+:\d\d/);
  });

  test("a pause silences it at once, and it goes on where it was", async () => {
    await nerys.page.getByRole("button", { name: "Pause" }).click();
    const paused = await ear.listen();
    const bar = await barOnStrip();
    await untilMoment(paused.now + 1.5);
    const later = await ear.listen();
    expect(loudest(later, paused.now + 0.3, later.now)).toBeLessThan(silence);
    expect(await barOnStrip()).toBe(bar);
    await listenHere().click();
    await untilStruck(later.struck.length + 4);
    const next = (await ear.listen()).struck[later.struck.length]?.at ?? 0;
    await untilMoment(next + 0.4);
    expect(loudest(await ear.listen(), next + 0.1, next + 0.4)).toBeGreaterThan(10 * silence);
  });

  test("another tempo counts at once and keeps the place", async () => {
    const bar = await barOnStrip();
    await player().getByRole("slider", { name: "Tempo" }).fill("50");
    await nerys.sees(player().getByText("50 %"));
    expect(Math.abs((await barOnStrip()) - bar)).toBeLessThanOrEqual(1);
    await player().getByRole("slider", { name: "Tempo" }).fill("100");
  });

  test("a stop silences it and takes the marks away", async () => {
    await player().getByRole("button", { name: "Stop" }).click();
    const stopped = await ear.listen();
    await nerys.page.locator("[data-playing]").first().waitFor({ state: "detached" });
    await untilMoment(stopped.now + 1.2);
    const later = await ear.listen();
    expect(loudest(later, stopped.now + 0.3, later.now)).toBeLessThan(silence);
    expect(later.struck).toHaveLength(stopped.struck.length);
  });

  test("Space plays and pauses while the strip has the focus", async () => {
    await nerys.page.locator('[role="slider"]').first().focus();
    await nerys.page.keyboard.press("Space");
    await nerys.page.locator("[data-playing]").first().waitFor({ state: "attached" });
    await nerys.sees(nerys.page.getByRole("button", { name: "Pause" }));
    await nerys.page.keyboard.press("Space");
    await nerys.sees(listenHere());
    await player().getByRole("button", { name: "Stop" }).click();
  });

  test("a cut's join is heard across the cut", async () => {
    const group = nerys.cut(2).getByRole("group", { name: "Listen to this join" });
    const before = (await ear.listen()).struck.length;
    const schedule = readSchedule(concertino, readTempoMap(concertino), {
      ...{ kind: "join", cut: open, cuts: [agreed], how: "with-the-cut" },
      ...{ barsBefore: barsAroundJoin, barsAfter: barsAroundJoin },
    });
    await group.getByRole("button", { name: /Listen/ }).click();
    await untilStruck(before + schedule.notes.length);
    const { struck } = await ear.listen();
    const sent = struck.slice(before);
    const begin = (sent[0]?.at ?? 0) - (schedule.notes[0]?.onsetSeconds ?? 0);
    for (const [index, note] of schedule.notes.entries()) {
      expect(sent[index]?.midi).toBe(note.midi);
      expect(Math.abs((sent[index]?.at ?? 0) - begin - note.onsetSeconds)).toBeLessThan(0.001);
    }
    const seam = begin + (schedule.seams[0]?.seconds ?? Number.NaN);
    await untilMoment(seam + 0.4);
    expect(loudest(await ear.listen(), seam + 0.08, seam + 0.4)).toBeGreaterThan(10 * silence);
    await group.getByRole("button", { name: "Listen" }).waitFor();
  });

  test("it is heard without a connection, by somebody who had only opened the piece", async () => {
    const line = await Line.lay();
    const matthis = await Person.sitDown(browser, product.url, undefined, { proxy: line.proxy });
    const heard = await hearPage(matthis.page);
    await matthis.signIn("matthis@example.org", password);
    const piece = new URL(nerys.page.url()).pathname;
    await matthis.go(piece);
    await matthis.seesNotes();
    const wanted = [/^\/sound\/.*\.sf3$/, /^\/sound\/.*\.js$/, /\/source\//, new RegExp(`^${piece}$`)];
    const isKept = async () => {
      const kept = await listKept(matthis.page);
      return wanted.every((pattern) => kept.some((address) => pattern.test(address)));
    };
    await expect.poll(isKept, { timeout: 120_000 }).toBe(true);
    line.cut();
    await matthis.page.context().setOffline(true);
    await matthis.page.reload();
    await matthis.page.getByRole("button", { name: "Listen", exact: true }).first().click();
    await matthis.page.waitForFunction(
      () => (window as unknown as { hearing(): Hearing }).hearing().struck.length > 8,
    );
    const first = (await heard.listen()).struck[0]?.at ?? 0;
    await matthis.page.waitForFunction(
      (at) => (window as unknown as { hearing(): Hearing }).hearing().now > at + 0.4,
      first,
    );
    expect(loudest(await heard.listen(), first + 0.1, first + 0.4)).toBeGreaterThan(10 * silence);
    await matthis.leave();
    await line.takeDown();
  });
});
