import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { handPresets } from "@/lib/hands/hand-presets";
import { UNPIANISTIC_PLACES } from "@/seed/concertino/planted";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { readPdf } from "../lib/engrave/pdf/read-pdf";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

/** What the list calls the planted places. */
const names = {
  "repeated chords": "Repeated chords",
  stretch: "Wide chords",
  leaps: "Leaps",
} as const;

/** Whole, half and black heads of the music font. Source: SMuFL. */
const noteHeads = /[\uE0A2-\uE0A4]/g;

const countNotes = (parts: readonly string[]): number =>
  parts
    .join()
    .split("<note")
    .slice(1)
    .filter((note) => note.includes("<pitch>") && !/^[^>]*print-object="no"/.test(note)).length;

describe.skipIf(!executable)("a pianist's hands", () => {
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
    matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    const desk = await nerys.page.getByRole("link", { name: "Look and answer" }).getAttribute("href");
    piece = new URL(desk ?? "", product.url).pathname;
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  /** What a power cut does; the same address comes back. */
  async function crashAndReturn(): Promise<void> {
    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
  }

  const list = () => nerys.page.getByRole("region", { name: "Awkward at tempo" });
  const places = () => list().locator("ol > li");
  /** The place whose first bar this is. */
  const place = (firstBar: string) => places().filter({ hasText: new RegExp(`Bars? ${firstBar}\\b`) });
  const panel = (person: Person) => person.page.locator("#passage");
  const drawn = (where: Locator) => where.locator("[data-drawn]").first();

  test("are set, and the places that do not lie well under them are found, each with its reason", async () => {
    await nerys.go(piece);
    await nerys.page.getByRole("link", { name: "Hands", exact: true }).click();
    await nerys.page.waitForURL(`**${piece}/hands**`);
    await nerys.sees(places().first());
    const texts = await places().allTextContents();
    for (const { kind, bars, hand } of UNPIANISTIC_PLACES) {
      const [from, to] = [Number(bars.from), Number(bars.to)];
      const found = texts.filter((text) => {
        const [, first = "0", last = first] = /Bars? (\d+)(?:–(\d+))?/.exec(text) ?? [];
        return Number(first) <= to && Number(last) >= from;
      });
      expect(found.join(), `${kind} in bars ${bars.from} to ${bars.to}`).toContain(
        `${names[kind]}, ${hand} hand`,
      );
    }
    // The reason opens to its figures.
    await place("112").getByRole("button").click();
    await panel(nerys)
      .getByText(/Right hand: chords an octave wide repeated 8\.4 times a second/)
      .first()
      .click();
    await nerys.sees(panel(nerys).getByText(/times what is comfortable/));

    // She measures her left hand on the drawn keys: a twelfth when it must be, an eleventh with ease.
    const card = nerys.page.getByRole("region", { name: "Your hands", exact: true });
    expect(await card.textContent()).toContain("Reach, left10th");
    await card.getByRole("button", { name: "Change" }).click();
    const dialog = nerys.page.getByRole("dialog", { name: "Your hands" });
    await dialog.getByRole("button", { name: "Larger hands" }).click();
    await nerys.sees(dialog.getByText(handPresets.at(-1)?.source ?? "no preset"));
    await dialog.getByRole("button", { name: "Measure me" }).click();
    await dialog.getByRole("button", { name: "C 2", exact: true }).click();
    await dialog.getByRole("button", { name: "G 3", exact: true }).click();
    await dialog.getByRole("button", { name: "Take it for the left hand" }).click();
    await dialog.getByLabel("Right hand, with ease").selectOption({ label: "9th" });
    await dialog.getByRole("button", { name: "Keep these hands" }).click();
    await nerys.sees(card.getByText("11th"));
    expect(await card.textContent()).toContain("Reach, left11th");
    expect(await card.textContent()).toContain("Only you see them.");
    expect(await card.textContent()).toContain("Reach, right9th");
  });

  test("answer at once at another tempo, which stands in the address", async () => {
    await place("206").getByRole("button").click();
    const slider = panel(nerys).getByRole("slider", { name: "Tempo" });
    const before = await places().count();
    const easy = Number(/up to (\d+)/.exec((await panel(nerys).textContent()) ?? "")?.[1]);
    expect(easy).toBeGreaterThan(40);
    await slider.fill(`${easy}`);
    await nerys.sees(panel(nerys).getByText("It lies well under your hands at this tempo."));
    await expect.poll(() => places().count()).toBeLessThan(before);
    await expect.poll(() => new URL(nerys.page.url()).searchParams.get("tempo")).toMatch(/^\d+(\.\d)?$/);
    await nerys.page.reload();
    await expect.poll(() => slider.inputValue()).toBe(`${easy}`);
    await nerys.page
      .getByRole("region", { name: "By tempo" })
      .getByRole("button", { name: /passages/ })
      .last()
      .click();
    await expect.poll(() => places().count()).toBeGreaterThanOrEqual(before);
    await nerys.go(`${piece}/hands`);
  });

  test("one suggestion is taken as it is: the soloist is told, and it outlives a crash", async () => {
    await place("112").getByRole("button").click();
    await nerys.sees(panel(nerys).getByText("Tremolo for the repeated chords", { exact: false }));
    await panel(nerys).getByRole("button", { name: "Use this ossia" }).click();
    await panel(nerys)
      .getByRole("radio", { name: /^Tell Matthis/ })
      .check();
    await panel(nerys).getByRole("button", { name: "Tell Matthis" }).click();
    await nerys.sees(place("112").getByText("told Matthis"));
    await crashAndReturn();
    await nerys.page.reload();
    await nerys.sees(place("112").getByText("told Matthis"));
    await nerys.sees(panel(nerys).getByRole("heading", { name: "Rewrite 1" }));
  });

  test("another is written note by note and put to the soloist, who hears nothing of her hands", async () => {
    await place("206").getByRole("button").click();
    await panel(nerys).getByRole("button", { name: "Write my own" }).click();
    const editor = nerys.page.getByRole("region", { name: "Write your own" });
    const notes = editor.locator("[data-event]");
    await nerys.sees(notes);
    await notes.first().press("Enter");
    await nerys.sees(editor.getByText(/right hand, bar 206, beat 1/).last());
    await editor.getByRole("button", { name: /^Delete/ }).click();
    await expect.poll(() => editor.getByRole("button", { name: "Undo" }).isEnabled()).toBe(true);
    await editor.getByLabel("What you did, in a few words").fill("the first stroke left out");
    await editor.getByRole("button", { name: "Keep", exact: true }).click();
    await panel(nerys)
      .getByRole("radio", { name: /^Ask Matthis/ })
      .check();
    await panel(nerys).getByLabel("A word to Matthis").fill("My hand needs that breath.");
    await panel(nerys).getByRole("button", { name: "Ask Matthis" }).click();
    await nerys.sees(place("206").getByText("waits for Matthis"));

    await matthis.go(`${piece}/hands`);
    await matthis.sees(matthis.page.getByText("waits for you").last());
    await matthis.sees(drawn(panel(matthis).getByRole("region", { name: "What Nerys plays" })));
    await matthis.sees(panel(matthis).getByText("My hand needs that breath."));
    await matthis.sees(panel(matthis).getByText("What you hear"));
    const seen = (await matthis.page.locator("body").textContent()) ?? "";
    for (const hidden of ["Your hands", "Difficulty", "difficulty", "Under your hands", "9th", "you manage"])
      expect(seen).not.toContain(hidden);
    await panel(matthis).getByRole("button", { name: "Agree" }).click();
    await nerys.sees(place("206").getByText("agreed", { exact: true }));
  });

  /** What stands in an edition's MusicXML, and how many heads its pianist's paper has. */
  async function editionOf(number: number) {
    const files = `/api${piece}/editions/${number}`;
    const xml = new TextDecoder().decode((await matthis.fetches(`${files}/edition.musicxml`)).bytes);
    const parts = xml.split(/<part id=/).slice(1);
    const ossias = parts.filter((part) => part.includes("<staff-type>ossia</staff-type>"));
    const { pages } = await readPdf((await nerys.fetches(`${files}/pianist.pdf`)).bytes);
    return {
      notes: countNotes(parts),
      ossiaNotes: countNotes(ossias),
      tremolos: ossias.join().match(/<tremolo type="start"/g)?.length ?? 0,
      heads: pages.join().match(noteHeads)?.length ?? 0,
    };
  }

  test("what is told and agreed is frozen, printed and written", async () => {
    await nerys.go(piece);
    await nerys.cut(2).getByRole("button", { name: "Agree" }).click();
    await nerys.sees(nerys.cut(2).getByText("agreed", { exact: true }));
    for (const person of [nerys, matthis]) await person.go(`${piece}/editions`);
    await nerys.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await matthis.sees(matthis.page.getByText(/Nerys is ready/));
    await matthis.page.getByRole("button", { name: "Freeze as № 2" }).click();
    await nerys.sees(nerys.page.getByRole("list", { name: "Files of № 2" }));

    const [first, second] = [await editionOf(1), await editionOf(2)];
    expect([first.ossiaNotes, first.tremolos]).toEqual([0, 0]);
    // Two staves of ossia or more: half notes to and fro for the repeated chords, and what she wrote herself.
    expect(second.ossiaNotes).toBeGreaterThan(40);
    expect(second.tremolos).toBeGreaterThan(8);
    // Every note of the file has its head on the paper, those of the ossias too.
    expect(first.heads).toBe(first.notes);
    expect(second.heads).toBe(second.notes);
    await nerys.go(`${piece}/hands`);
    await nerys.sees(place("112").getByText("in № 2"));
    await nerys.sees(place("206").getByText("in № 2"));
  });
});
