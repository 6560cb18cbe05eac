import { strToU8, zipSync } from "fflate";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { hostile, writeHostileScore } from "./hostile-score";
import { Person } from "./person";
import { type PageWatch, watchPage } from "./watch-page";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

/** Somebody at a browser, and what their page was watched doing. */
interface Watched {
  readonly person: Person;
  readonly watch: PageWatch;
}

describe.skipIf(!executable)("texts that are markup", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;

  beforeAll(async () => {
    database = await createFreshDatabase();
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  /** Without the policy, whatever a page lets in would run. */
  async function sitDown(options: { bypassCSP: boolean }): Promise<Watched> {
    const person = await Person.sitDown(browser, product.url, { width: 1440, height: 900 }, options);
    return { person, watch: await watchPage(person.page, product.url) };
  }

  test("are seen at once where a page does take them for markup", async () => {
    const { person, watch } = await sitDown({ bypassCSP: true });
    await person.go("/sign-in");
    await person.page.evaluate((text) => {
      document.body.insertAdjacentHTML("beforeend", text);
    }, `${hostile.movement} ${hostile.words} ${hostile.pianoName}`);
    await expect.poll(() => watch.acts.join()).toMatch(/ran: movement/);
    await expect.poll(() => watch.acts.join()).toMatch(/ran: piano/);
    const found = (await watch.findForeign()).join("\n");
    for (const what of [
      /^frame /,
      /hostile element/,
      /handler onerror/,
      /foreign address href/,
      /element: <iframe/,
    ])
      expect(found).toMatch(what);
    await person.leave();
  });

  test("stay text on every page and in every file", async () => {
    const pianist = await sitDown({ bypassCSP: false });
    const soloist = await sitDown({ bypassCSP: true });
    const [ruth, josse] = [pianist.person, soloist.person];

    // Brought through the screen: what was found, then the link.
    await ruth.openAccount(hostile.pianist, "ruth@example.org", password);
    await ruth.page.getByRole("link", { name: "Bring a piece" }).click();
    await choose(ruth, "bad.mxl", strayContainer());
    await shows(pianist, hostile.title);
    await choose(ruth, hostile.fileName, writeHostileScore());
    await ruth.sees(ruth.page.getByText(/Found:/));
    await shows(pianist, hostile.pianoName, hostile.barNumber, hostile.fileName);
    await ruth.page.getByRole("button", { name: "That is right" }).click();
    await ruth.page.getByRole("button", { name: "Make a link for them" }).click();
    const link = await ruth.page.getByLabel("Their link").inputValue();
    await isInert(pianist);

    // The invitation, and the piece as the second player first sees it.
    await josse.go(link);
    await shows(soloist, hostile.title, hostile.composer, hostile.pianist);
    await josse.page.getByLabel("Your name").fill(hostile.soloist);
    await josse.page.getByLabel("Your e-mail").fill("josse@example.org");
    await josse.page.getByLabel("Password").fill(password);
    await josse.page.getByRole("button", { name: "Open an account and join" }).click();
    await josse.page.waitForURL(/\/pieces\/[\w-]{20,}/);
    const piece = new URL(josse.page.url()).pathname;
    await josse.seesNotes();
    await showsScore(soloist);

    // A proposal with a reason, a comment on it, one on bars.
    await josse.page.getByRole("button", { name: "Propose a cut" }).first().click();
    await josse.chooseBars("9", "13");
    await josse.page.getByLabel("Why? (if you like)").fill(hostile.reason);
    await josse.page.getByRole("button", { name: /^Propose to Ruth/ }).click();
    await josse.sees(josse.cut(1, "9–12"));
    await ruth.go("/");
    await shows(pianist, hostile.title, hostile.reason);
    await ruth.page.getByRole("link", { name: "Look and answer" }).click();
    await ruth.seesNotes();
    await ruth.page.getByLabel("Write to Josse about this cut").fill(hostile.comment);
    await ruth.page.getByRole("button", { name: "Send" }).click();
    await ruth.page.locator("rect[data-bar='2']").click();
    await ruth.page.getByRole("button", { name: "Comment" }).first().click();
    await ruth.page.getByLabel(/^Write about bar 3/).fill(`Here: ${hostile.comment}`);
    await ruth.page.keyboard.press("Control+Enter");
    await shows(soloist, hostile.comment, `Here: ${hostile.comment}`, hostile.reason);
    await shows(pianist, hostile.comment, `Here: ${hostile.comment}`, hostile.reason);
    await ruth.cut(1).getByRole("button", { name: "Agree" }).click();
    await ruth.sees(ruth.cut(1).getByText("agreed", { exact: true }));

    // All three readings.
    for (const reading of ["Folded", "As it will read", "Open"]) {
      for (const reader of [pianist, soloist]) {
        await reader.person.page.getByRole("button", { name: reading, exact: true }).click();
        await reader.person.seesNotes();
        await showsScore(reader);
      }
    }

    // Editions, settings, performances and the list of pieces, for both.
    for (const { person } of [pianist, soloist]) {
      await person.go(`${piece}/editions`);
      await person.page.getByRole("button", { name: "Freeze as № 1" }).click();
    }
    for (const reader of [pianist, soloist]) {
      await reader.person.sees(reader.person.page.getByRole("list", { name: "Files of № 1" }));
      await shows(reader, hostile.title, hostile.movement, hostile.composer);
      await reader.person.go(`${piece}/settings`);
      await shows(reader, hostile.soloName, hostile.pianoName, hostile.pianist, hostile.soloist);
      await shows(reader, hostile.fileName, hostile.tempo);
      await reader.person.go("/performances");
      await reader.person.sees(reader.person.page.getByRole("heading", { level: 1 }));
      await isInert(reader);
      await reader.person.go("/");
      await shows(reader, hostile.title, hostile.composer, hostile.movement);
    }
    await drawingsAreInert(soloist, piece);
    await filesAreInert(ruth, piece);
    await ruth.leave();
    await josse.leave();
  });
});

/** A container that names a score that it does not hold; the refusal repeats the name. */
function strayContainer(): Uint8Array {
  const path = hostile.title.replace(/[<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
  const list = `<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`;
  return zipSync({ "META-INF/container.xml": strToU8(list), "notes.txt": strToU8("none") });
}

async function choose(person: Person, name: string, content: string | Uint8Array): Promise<void> {
  const file = { name, mimeType: "application/xml", buffer: Buffer.from(content) };
  await person.page.locator("input[type=file]").setInputFiles(file);
}

async function isInert({ watch }: Watched): Promise<void> {
  expect(await watch.findForeign()).toEqual([]);
  expect(watch.acts).toEqual([]);
}

/** The texts stand on the page, letter by letter, and nothing of them is more than text. Long ones are broken into lines. */
async function shows(watched: Watched, ...texts: string[]): Promise<void> {
  const letters = (text: string) => text.replace(/\s+/g, "");
  for (const text of texts) {
    const shown = async () => letters(await watched.watch.readText());
    await expect.poll(shown, { timeout: 60_000 }).toContain(letters(text));
  }
  await isInert(watched);
}

async function showsScore(watched: Watched): Promise<void> {
  const { words, fromCdata, escapedTwice, mark, lyric, dynamics, tempo } = hostile;
  await shows(watched, words, fromCdata, escapedTwice, mark, lyric, dynamics, tempo);
}

/** Opened by themselves, as documents of their own, where a script in a drawing would run. */
async function drawingsAreInert(watched: Watched, piece: string): Promise<void> {
  const { person } = watched;
  const answer = await person.fetches(`/api${piece}/engraving?view=open&layout=desk`);
  const { key, systems } = JSON.parse(new TextDecoder().decode(answer.bytes));
  expect(systems.length).toBeGreaterThan(1);
  for (const index of systems.keys()) {
    await person.go(`/api${piece}/engraving/${key}/${index}`);
    expect(await person.page.locator("g.measure").count()).toBeGreaterThan(0);
    await isInert(watched);
  }
}

async function filesAreInert(person: Person, piece: string): Promise<void> {
  const address = (file: string) => `/api${piece}/editions/1/${file}`;
  for (const file of ["pianist.pdf", "soloist.pdf", "cut-sheet.pdf"]) {
    const pdf = await person.fetches(address(file));
    expect(pdf).toMatchObject({ status: 200, type: "application/pdf" });
    await pdfIsInert(pdf.bytes);
  }
  const written = await person.fetches(address("edition.musicxml"));
  expect(written).toMatchObject({ status: 200, type: "application/vnd.recordare.musicxml+xml" });
  const read = readScore(written.bytes);
  if (!read.ok) throw new Error(read.problem.kind);
  const { title, parts } = read.value.score;
  expect(title).toBe(hostile.title);
  expect(parts.map(({ name }) => name)).toEqual([hostile.soloName, hostile.pianoName]);
  const source = await person.fetches(`/api${piece}/source`);
  expect(source.type).not.toMatch(/html|^image|^text\/xml|^application\/xml/);
  expect(new TextDecoder().decode(source.bytes)).toBe(writeHostileScore());
}

/** No script, no link, no form; the title is there as text. */
async function pdfIsInert(data: Uint8Array): Promise<void> {
  const pdf = await getDocument({ data, isEvalSupported: false }).promise;
  expect(await pdf.getJSActions()).toBeNull();
  expect(await pdf.getOpenAction()).toBeNull();
  expect(await pdf.getAttachments()).toBeNull();
  const texts: string[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number);
    expect(await page.getAnnotations()).toEqual([]);
    const { items } = await page.getTextContent();
    texts.push(...items.map((item) => ("str" in item ? item.str : "")));
  }
  const withoutSpaces = (text: string) => text.replace(/\s+/g, "");
  expect(withoutSpaces(texts.join(""))).toContain(withoutSpaces(hostile.title));
  await pdf.loadingTask.destroy();
}
