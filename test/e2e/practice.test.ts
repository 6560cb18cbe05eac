import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { planLadder } from "@/lib/practice/tempo-ladder";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { type Hearing, hearPage } from "./hearing";
import { Line } from "./line";
import { listKept } from "./list-kept";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

/** How long a click lasts, how far the meter looks back, and what a look may come late. In seconds. */
const [clickSeconds, meterSeconds, slack] = [0.06, 0.047, 0.03];

describe.skipIf(!executable)("practising a piece", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let line: Line;
  let nerys: Person;
  let ear: Awaited<ReturnType<typeof hearPage>>;
  let hands: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    line = await Line.lay();
    nerys = await Person.sitDown(browser, product.url, undefined, { proxy: line.proxy });
    ear = await hearPage(nerys.page);
    await nerys.page.addInitScript(noteClicks);
    await nerys.signIn("nerys@example.org", password);
    await nerys.page.getByRole("link", { name: "Look and answer" }).click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]{20,}/);
    hands = `${new URL(nerys.page.url()).pathname}/hands`;
    await nerys.go(hands);
  });

  afterAll(async () => {
    await browser?.close();
    await line?.takeDown();
    await product?.stop();
    await database?.drop();
  });

  const panel = (): Locator => nerys.page.getByRole("region", { name: "Practice" });
  const passage = (): Locator => panel().getByRole("listitem", { name: /^Bars 112–/ });
  const log = (): Locator => passage().getByRole("list", { name: /^Log of bars 112–/ });
  /** The first two rungs of the ladder to 126 and the sentence under the passage, as the screen has them at first. */
  let rungs: readonly number[];
  const hints = (person: Person): Locator =>
    person.page.getByRole("region", { name: "Sounding like the orchestra" });

  test("the neediest passage is open, with a ladder from what is comfortable up to tempo", async () => {
    const ladder = passage().getByRole("img", { name: /^Ladder from \d+ to 126/ });
    await nerys.sees(ladder);
    const first = Number(/\d+/.exec((await ladder.getAttribute("aria-label")) ?? "")?.[0]);
    expect(first).toBeGreaterThan(126 / 3);
    const tempo = { beat: "1", perMinute: 126 };
    rungs = planLadder({ fromBar: 0, toBar: 0, tempo, comfortablePace: first / 126 }, []).rungs.map(
      ({ perMinute }) => perMinute,
    );
    expect(rungs[0]).toBe(first);
    await nerys.sees(passage().getByRole("button", { name: `It held at ${first}` }));
    await nerys.sees(passage().getByText("Not yet begun, 126 to reach"));
  });

  test("a tempo that held is logged with one touch, and the next rung is up", async () => {
    await panel().getByLabel("A note for the log").fill("thumb under, second beat");
    await panel()
      .getByRole("button", { name: `It held at ${rungs[0]}` })
      .click();
    await nerys.sees(log().getByText("thumb under, second beat"));
    await nerys.sees(panel().getByRole("button", { name: `It held at ${rungs[1]}` }));
    await nerys.sees(passage().getByText(`Not yet at tempo: ${rungs[0]} of 126`));
    await nerys.sees(nerys.page.getByRole("region", { name: "The strip" }).locator(`text=${rungs[0]}→126`));
    await panel().getByRole("button", { name: "It did not hold" }).click();
    await nerys.sees(panel().getByText(`It did not hold at ${rungs[1]}: one rung back.`));
    await nerys.sees(panel().getByRole("button", { name: `It held at ${rungs[0]}` }));
  });

  test("an entry is taken off and brought back", async () => {
    const line = log().getByRole("listitem").filter({ hasText: "did not hold" });
    await line.getByRole("button", { name: "Take it off" }).click();
    await nerys.sees(panel().getByRole("button", { name: `It held at ${rungs[1]}` }));
    await line.getByRole("button", { name: "Bring it back" }).click();
    await nerys.sees(panel().getByRole("button", { name: `It held at ${rungs[0]}` }));
  });

  test("the metronome clicks on time, shows its beats, and Space stops it", async () => {
    await panel().getByRole("button", { name: "Metronome" }).click();
    await nerys.page.waitForFunction(() => document.querySelector('[data-beat="4"]') !== null);
    const heardUntil = (seconds: number) =>
      nerys.page.waitForFunction((wanted) => {
        const { levels, now } = (window as unknown as { hearing(): Hearing }).hearing();
        const first = levels.find(({ level }) => level > 0.01)?.at ?? Number.POSITIVE_INFINITY;
        return now - first > wanted;
      }, seconds);
    await heardUntil(5);
    const beatSeconds = 60 / (rungs[0] ?? 0);
    const sent = await nerys.page.evaluate(() => (window as unknown as { clicks: number[] }).clicks);
    expect(sent.length).toBeGreaterThanOrEqual(6);
    for (const [index, at] of sent.entries())
      expect(Math.abs(at - (sent[0] ?? 0) - index * beatSeconds)).toBeLessThan(1e-6);
    // What comes out is loud at those moments and at no others, as far as the meter can tell.
    const loud = (await ear.listen()).levels.filter(({ level }) => level > 0.01);
    const sinceClick = loud.map(({ at }) => (at - (sent[0] ?? 0)) % beatSeconds);
    expect(loud.length).toBeGreaterThanOrEqual(6);
    expect(Math.min(...sinceClick)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...sinceClick)).toBeLessThan(clickSeconds + meterSeconds + slack);
    const heard = new Set(loud.map(({ at }) => Math.floor((at - (sent[0] ?? 0)) / beatSeconds)));
    expect(heard.size).toBeGreaterThanOrEqual(5);
    await nerys.page.keyboard.press("Space");
    await nerys.sees(panel().getByRole("button", { name: "Metronome", exact: true }));
    const { now } = await ear.listen();
    await nerys.page.waitForFunction(
      (at) => (window as unknown as { hearing(): Hearing }).hearing().now > at + 2,
      now,
    );
    const after = (await ear.listen()).levels.filter(({ at }) => at > now + 0.2);
    expect(Math.max(0, ...after.map(({ level }) => level))).toBeLessThan(1e-4);
    expect(await nerys.page.locator("[data-beat]").count()).toBe(0);
  });

  test("the passage is heard at the tempo of the rung", async () => {
    const before = (await ear.listen()).struck.length;
    await panel()
      .getByRole("button", { name: `Listen at ${rungs[0]}` })
      .click();
    await nerys.page.waitForFunction(
      (count) => (window as unknown as { hearing(): Hearing }).hearing().struck.length > count + 40,
      before,
    );
    const moments = [
      ...new Set((await ear.listen()).struck.slice(before, before + 40).map(({ at }) => at.toFixed(4))),
    ].map(Number);
    const gaps = moments.slice(1).map((at, index) => at - (moments[index] ?? 0));
    // Sixteenths.
    for (const gap of gaps) expect(Math.abs(gap - 15 / (rungs[0] ?? 0))).toBeLessThan(0.005);
    await nerys.page.keyboard.press("Space");
    await nerys.sees(panel().getByRole("button", { name: `Listen at ${rungs[0]}` }));
  });

  test("there is a plan until the next performance, in the pianist's minutes", async () => {
    const plan = nerys.page.getByRole("region", { name: "Rehearsal plan" });
    await nerys.sees(plan.getByRole("heading", { name: /^Until / }));
    await plan.getByLabel("Minutes a day").fill("20");
    await plan.getByRole("button", { name: /^All \d+ days/ }).click();
    const days = plan.locator("ol > li");
    const texts = await days.allInnerTexts();
    expect(texts.length).toBeGreaterThan(7);
    for (const text of texts) {
      const minutes = [...text.matchAll(/(\d+) min/g)].map(([, count]) => Number(count));
      expect(minutes.reduce((sum, one) => sum + one, 0)).toBe(20);
    }
    expect(texts.at(-1)).toMatch(/Run-throughs only/);
    expect(texts.join("\n")).toMatch(/Bars 112–/);
  });

  test("what is logged without a connection stays, over a reload too, and goes when it is back", async () => {
    const wanted = [/\/source\//, new RegExp(`^${hands}$`)];
    const isKept = async () => {
      const kept = await listKept(nerys.page);
      return wanted.every((pattern) => kept.some((address) => pattern.test(address)));
    };
    await expect.poll(isKept, { timeout: 120_000 }).toBe(true);
    line.cut();
    await nerys.page.context().setOffline(true);
    await panel().getByLabel("A note for the log").fill("in the train");
    await panel()
      .getByRole("button", { name: `It held at ${rungs[0]}` })
      .click();
    const entry = log().getByRole("listitem").filter({ hasText: "in the train" });
    await nerys.sees(entry.getByText("Not sent. It stays here and goes when you are back."));
    await nerys.page.reload();
    await nerys.sees(entry.getByText("Not sent. It stays here and goes when you are back."));
    line.mend();
    await nerys.page.context().setOffline(false);
    await entry.getByText("Not sent.").waitFor({ state: "detached" });
    await nerys.page.reload();
    await nerys.sees(entry);
    expect(await entry.getByText("Not sent.").count()).toBe(0);
  });

  test("a hint that one of the two words anew is read by the other, and earlier words are kept", async () => {
    const horn = hints(nerys).getByRole("listitem", { name: "Horn", exact: true });
    await nerys.sees(horn.getByText("common practice"));
    await horn.getByRole("button", { name: "Change" }).click();
    await horn.getByRole("textbox").fill("From the next valley: soft pedal, slow keys.");
    await horn.getByRole("button", { name: "Keep for both" }).click();
    await nerys.sees(horn.getByText("From the next valley: soft pedal, slow keys."));
    const matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 });
    await matthis.signIn("matthis@example.org", password);
    await matthis.go(hands);
    const his = hints(matthis).getByRole("listitem", { name: "Horn", exact: true });
    await matthis.sees(his.getByText("From the next valley: soft pedal, slow keys."));
    await matthis.sees(his.getByText(/Nerys/));
    expect(await matthis.page.getByRole("region", { name: "Practice" }).count()).toBe(0);
    await his.getByRole("button", { name: "Change" }).click();
    await his.getByRole("textbox").fill("Farther still.");
    await his.getByRole("button", { name: "Keep for both" }).click();
    await matthis.sees(his.getByText("Farther still."));
    await matthis.leave();
    await nerys.page.reload();
    await nerys.sees(horn.getByText("Farther still."));
    await horn.getByText("Earlier words: 1").click();
    await nerys.sees(horn.getByText("From the next valley: soft pedal, slow keys."));
  });

  test("all of it is there again when the server was killed and the page opened anew", async () => {
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port: product.port });
    await nerys.page.reload();
    await nerys.sees(log().getByText("thumb under, second beat"));
    expect(await log().getByRole("listitem").count()).toBe(3);
    await nerys.sees(panel().getByText(`It held at ${rungs[0]}.`));
    await nerys.sees(hints(nerys).getByText("Farther still."));
    expect(await nerys.page.getByLabel("Minutes a day").inputValue()).toBe("20");
  });
});

/** Runs in the page: notes down for which moments of the sound clock clicks are sent. */
function noteClicks(): void {
  const clicks: number[] = [];
  const { start } = OscillatorNode.prototype;
  OscillatorNode.prototype.start = function begin(this: OscillatorNode, at?: number) {
    clicks.push(at ?? 0);
    start.call(this, at);
  };
  Object.assign(window, { clicks });
}
