import path from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { root } from "@/app/_commands/folders.mjs";
import { createAccount } from "@/lib/store/auth/create-account";
import { startSession } from "@/lib/store/auth/session";
import { sessionCookie } from "@/lib/store/auth/session-cookie";
import { startThrowAwayPostgres } from "@/prisma/embedded/start-throw-away-postgres.mjs";
import { migrate } from "@/prisma/migrate.mjs";
import { inDatabase } from "@/test/e2e/in-database";
import { findBrowser, launchBrowser } from "@/test/setup/browser";
import buildProduct from "@/test/setup/built-product";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { readOpening, startStopwatch, timeArrival } from "./stopwatch";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

const barCount = 600;
const repetitions = 5;
/** Of the strip's width, from the left; far from one another, so that no two show the same system. */
const tapPlaces = [0.85, 0.15, 0.6, 0.95, 0.35];
const desk = { width: 1440, height: 900 };
/** A limit for what hangs. */
const patienceMilliseconds = 600_000;

/**
 * The built product with a long piece, on the desk. Times run in the page, from the start of the navigation (or from the
 * press on the strip) to the frame after the one that has it.
 */
export const benchmark = {
  name: `A solo part with a piano reduction of ${barCount} bars, on a desk of ${desk.width} × ${desk.height}`,
  async run(): Promise<Row[]> {
    const executable = await findBrowser();
    if (!executable) throw new RangeError("no browser found: install chromium or set CHROMIUM_PATH");
    await buildProduct();
    const postgres = await startThrowAwayPostgres();
    try {
      await migrate(postgres.url, path.join(root, "prisma/migrations"));
      const product = await startProduct({ databaseUrl: postgres.url });
      try {
        const token = await inDatabase(postgres.url, openAccount);
        const browser = await launchBrowser(executable);
        return await measure({ browser, product, token }).finally(() => browser.close());
      } finally {
        await product.stop();
      }
    } finally {
      await postgres.stop();
    }
  },
};

interface Setting {
  readonly browser: Browser;
  readonly product: RunningProduct;
  readonly token: string;
}

async function openAccount(): Promise<string> {
  const account = { name: "Ruth Amsel", email: "ruth@example.org", password: "for this run only" };
  const created = await createAccount(account, "127.0.0.1");
  if (!created.ok) throw new Error(created.problem.kind);
  return (await startSession(created.value.userId)).token;
}

async function measure(setting: Setting): Promise<Row[]> {
  // A short piece first: what a server does only once after its start is not counted.
  const short = await bring(setting, 8);
  await open(setting, short.address);
  const long = await bring(setting, barCount);
  const fresh = await open(setting, long.address);
  const cached: Opening[] = [];
  for (let turn = 0; turn < repetitions; turn += 1) cached.push(await open(setting, long.address));
  const [again, taps] = await openAgainAndTap(setting, long.address);
  return [
    { what: "upload, until it is answered", "ms (median)": Math.round(long.milliseconds), runs: 1 },
    ...rowsOf("opened right after the upload, not engraved yet", [fresh]),
    ...rowsOf("opened, engraved before; nothing kept in the browser", cached),
    ...rowsOf("opened again in the same browser", again),
    rowOf("press on the strip, until that system's notes are there", taps),
  ];
}

/** Uploads a piece as the browser would. */
async function bring({ product, token }: Setting, bars: number) {
  const form = new FormData();
  form.set("file", new File([writeSyntheticScore(bars)], "synthetic.musicxml"));
  form.set("role", "pianist");
  const headers = { origin: product.url, cookie: `${sessionCookie(product.url).name}=${token}` };
  const start = performance.now();
  const response = await fetch(`${product.url}/api/pieces`, { method: "POST", headers, body: form });
  const answer = (await response.json()) as { pieceId: string };
  if (response.status !== 201) throw new Error(JSON.stringify(answer));
  return { address: `${product.url}/pieces/${answer.pieceId}`, milliseconds: performance.now() - start };
}

interface Opening {
  readonly strip: number;
  readonly notes: number;
  readonly longestTask: number;
}

async function sitDown({ browser, product, token }: Setting): Promise<BrowserContext> {
  const context = await browser.newContext({ viewport: desk });
  const { name, options } = sessionCookie(product.url);
  const { httpOnly, secure } = options;
  await context.addCookies([{ name, value: token, url: product.url, httpOnly, secure, sameSite: "Lax" }]);
  await context.addInitScript(startStopwatch);
  context.setDefaultTimeout(patienceMilliseconds);
  return context;
}

async function openOn(page: Page, address: string): Promise<Opening> {
  await page.goto(address, { waitUntil: "commit" });
  await page.waitForFunction(readOpening);
  const opening = await page.evaluate(readOpening);
  if (!opening) throw new Error("the page was left while it was measured");
  return opening;
}

/** Opens a piece in a browser that keeps nothing. */
async function open(setting: Setting, address: string): Promise<Opening> {
  const context = await sitDown(setting);
  const opening = await openOn(await context.newPage(), address);
  await context.close();
  return opening;
}

async function openAgainAndTap(setting: Setting, address: string): Promise<[Opening[], number[]]> {
  const context = await sitDown(setting);
  const page = await context.newPage();
  await openOn(page, address);
  const again: Opening[] = [];
  for (let turn = 0; turn < repetitions; turn += 1) again.push(await openOn(page, address));
  await page.waitForLoadState("networkidle");
  const taps: number[] = [];
  for (const place of tapPlaces) taps.push(await tap(page, place));
  await context.close();
  return [again, taps];
}

/** Presses the strip at a part of its width; milliseconds until the system under it is on view with its notes. */
async function tap(page: Page, place: number): Promise<number> {
  const strip = page.getByRole("slider", { name: /The whole piece/ });
  const box = await strip.boundingBox();
  if (!box) throw new Error("no strip on the page");
  const arrival = page.evaluate(timeArrival, Math.floor(place * barCount));
  await strip.click({ position: { x: box.width * place, y: box.height - 4 } });
  return arrival;
}

function rowsOf(what: string, openings: readonly Opening[]): Row[] {
  return [
    rowOf(
      `${what}: strip`,
      openings.map(({ strip }) => strip),
    ),
    rowOf(
      `${what}: first page's notes`,
      openings.map(({ notes }) => notes),
    ),
    rowOf(
      `${what}: longest task`,
      openings.map(({ longestTask }) => longestTask),
    ),
  ];
}

function rowOf(what: string, values: readonly number[]): Row {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (part: number) => Math.round(sorted[Math.floor(part * (sorted.length - 1))] ?? Number.NaN);
  return { what, "ms (median)": at(0.5), fastest: at(0), slowest: at(1), runs: values.length };
}
