import path from "node:path";
import type { Page } from "playwright-core";
import { root } from "@/app/_commands/folders.mjs";
import { readSession } from "@/lib/store/auth/session";
import { sessionCookie } from "@/lib/store/auth/session-cookie";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import { startThrowAwayPostgres } from "@/prisma/embedded/start-throw-away-postgres.mjs";
import { migrate } from "@/prisma/migrate.mjs";
import { demoPeople } from "@/seed/demo-people";
import { inDatabase } from "@/test/e2e/in-database";
import { loadDemoInto } from "@/test/e2e/load-demo-into";
import { Person } from "@/test/e2e/person";
import { findBrowser, launchBrowser } from "@/test/setup/browser";
import buildProduct from "@/test/setup/built-product";
import { startProduct } from "@/test/setup/start-product";
import { type DeskPiece, type DeskScene, scenesOf } from "./desk-scenes";
import { type LongTasks, longTasksOf, watchLongTasks } from "./long-tasks";
import { type MainTask, tasksOf } from "./main-thread";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

const password = "for this run only";
const desk = { width: 1440, height: 900 };
const repetitions = 3;
const barCount = 600;
/** Bars by index: where the soloist of the long piece rests for long, and the cuts that are open in it. */
const longTutti = { first: 40, last: 99 };
const openCuts = [
  { from: 60, to: 80 },
  { from: 137, to: 142 },
];

/** The built product in a browser: tasks over 50 ms on the main thread while its workers search, weigh and play. */
export const benchmark = {
  name: `Tasks over 50 ms at the desk, on the demo and on ${barCount} bars with a tutti of 60`,
  async run(): Promise<Row[]> {
    const executable = await findBrowser();
    if (!executable) throw new RangeError("no browser found: install chromium or set CHROMIUM_PATH");
    await buildProduct();
    const postgres = await startThrowAwayPostgres();
    try {
      await migrate(postgres.url, path.join(root, "prisma/migrations"));
      await loadDemoInto(postgres.url, password);
      const product = await startProduct({ databaseUrl: postgres.url });
      const browser = await launchBrowser(executable);
      try {
        const nerys = await Person.sitDown(browser, product.url, desk);
        await watchLongTasks(nerys.page);
        await nerys.signIn(demoPeople.nerys.email, password);
        const pieces = [await findDemo(nerys.page), await bringLong(nerys.page, product.url, postgres.url)];
        const rows: Row[] = [];
        for (const piece of pieces) rows.push(...(await measure(nerys.page, piece)));
        return rows;
      } finally {
        await browser.close();
        await product.stop();
      }
    } finally {
      await postgres.stop();
    }
  },
};

async function findDemo(page: Page): Promise<DeskPiece> {
  await page.getByRole("link", { name: "Look and answer" }).click();
  await page.waitForURL(/\/pieces\/[\w-]+/);
  const { pathname } = new URL(page.url());
  return { name: "demo", path: pathname, cut: 2, otherCut: 1, tutti: 0 };
}

/** Uploads the long piece as the browser would, and puts two cuts forward in it. */
async function bringLong(page: Page, url: string, databaseUrl: string): Promise<DeskPiece> {
  const isTutti = (index: number) =>
    (index >= longTutti.first && index <= longTutti.last) || (index > 120 && index % 24 >= 16);
  const buffer = Buffer.from(writeSyntheticScore(barCount, isTutti));
  const file = { name: "synthetic.musicxml", mimeType: "application/xml", buffer };
  const options = { headers: { origin: url }, multipart: { file, role: "pianist" } };
  const answer = await page.request.post(`${url}/api/pieces`, options);
  const { pieceId } = (await answer.json()) as { pieceId: string };
  const cookies = await page.context().cookies();
  const token = cookies.find(({ name }) => name === sessionCookie(url).name)?.value ?? "";
  await inDatabase(databaseUrl, async () => {
    const viewer = await readSession(token);
    const piece = viewer && (await readPiece(viewer, pieceId));
    if (!viewer || !piece?.ok) throw new Error("the long piece is not there");
    const { hash: sourceHash } = piece.value.source;
    const at = (barIndex: number) => ({ barIndex, offset: "0" });
    for (const { from, to } of openCuts) {
      const terms = { sourceHash, from: at(from), to: at(to), reason: "" };
      const proposed = await proposeCut(viewer, pieceId, terms);
      if (!proposed.ok) throw new Error(proposed.problem.kind);
    }
  });
  return { name: `${barCount} bars`, path: `/pieces/${pieceId}`, cut: 1, otherCut: 2, tutti: 0 };
}

/** What a scene took of the page's thread in one turn. */
interface Measured extends LongTasks {
  readonly tasks: readonly MainTask[];
}

/** What only the first turn on a piece brings, such as its engraving, is over before: the first turn is not counted. */
async function measure(page: Page, piece: DeskPiece): Promise<Row[]> {
  const scenes = scenesOf(piece);
  const turns = new Map<DeskScene, Measured[]>(scenes.map((scene) => [scene, []]));
  for (let turn = 0; turn <= repetitions; turn += 1) {
    for (const scene of scenes) {
      await scene.prepare?.(page);
      let tasks: MainTask[] = [];
      const long = await longTasksOf(page, async () => {
        tasks = await tasksOf(page, () => scene.act(page));
      });
      if (turn > 0) turns.get(scene)?.push({ ...long, tasks });
    }
  }
  return [...turns].map(([{ what }, measured]) => rowOf(`${piece.name}: ${what}`, measured));
}

/** Processor time counts on a machine that does other work too: a task that waits for the processor is not long by its own fault. */
function rowOf(what: string, turns: readonly Measured[]): Row {
  const lengths = turns.flatMap((turn) => turn.lengths);
  const [hardest, ...others] = turns
    .flatMap(({ tasks }) => tasks)
    .toSorted((a, b) => b.processor - a.processor);
  const over = (limit: number) =>
    [hardest, ...others].filter((task) => task && task.processor > limit).length;
  return {
    what,
    "tasks over 50 ms": lengths.length,
    "longest, ms": Math.round(Math.max(0, ...lengths)),
    "over 30 ms of processor": over(30),
    "over 50": over(50),
    "most, ms": Math.round(hardest?.processor ?? 0),
    "of that": (hardest?.parts ?? [])
      .slice(0, 3)
      .map(([name, part]) => `${name} ${Math.round(part)}`)
      .join(", "),
    turns: turns.length,
    "highest load": Number(Math.max(...turns.map(({ load }) => load)).toFixed(1)),
  };
}
