import { execFile } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { promisify } from "node:util";
import { build } from "esbuild";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeScore } from "@/lib/musicxml/write-score";
import type { Score } from "@/lib/score/score";
import { evilText, goodFile, hostileFiles } from "./hostile-files";

const run = promisify(execFile);
const root = path.resolve(import.meta.dirname, "../../..");
// Inside the project, so that the program finds its packages.
let folder = "";

beforeAll(async () => {
  folder = mkdtempSync(path.join(root, "node_modules", ".hostile-"));
  await build({
    entryPoints: [path.join(import.meta.dirname, "read-in-child.ts")],
    outfile: path.join(folder, "read-in-child.mjs"),
    alias: { "@": root },
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
  });
  await readTogether();
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Outcome {
  readonly problem?: string;
  readonly notices?: readonly string[];
  readonly sentences: readonly string[];
  readonly megabytes: number;
}

const ways = ["stream", "tree"] as const;
type Way = (typeof ways)[number];

/** The system kills the process after 5 seconds of work (of all its threads together); its heap is bounded. */
async function readInChild(way: Way, files: readonly string[]): Promise<Outcome[]> {
  const program = path.join(folder, "read-in-child.mjs");
  const command = 'ulimit -t 5; exec "$@"';
  const node = [process.execPath, "--max-old-space-size=400", program, way, ...files];
  const { stdout } = await run("sh", ["-c", command, "sh", ...node], { maxBuffer: 1e8 });
  return stdout
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
}

/** Outcomes of all but the large files, which share one process and its 5 seconds. */
const together = new Map<string, Record<Way, Outcome>>();

async function readTogether(): Promise<void> {
  const chosen = hostileFiles.filter(({ isLarge }) => !isLarge);
  const files = chosen.map(({ name, bytes }) => writeFile(name, bytes()));
  const [stream, tree] = await Promise.all(ways.map((way) => readInChild(way, files)));
  for (const [index, { name }] of chosen.entries()) {
    const outcomes = { stream: stream?.[index], tree: tree?.[index] };
    if (!outcomes.stream || !outcomes.tree) throw new Error(`The process said nothing of ${name}`);
    together.set(name, { stream: outcomes.stream, tree: outcomes.tree });
  }
}

function writeFile(name: string, bytes: Uint8Array): string {
  const file = path.join(folder, `${name.replace(/\W+/g, "-").slice(0, 80)}.bin`);
  writeFileSync(file, bytes);
  return file;
}

function expectSentences(sentences: readonly string[]): void {
  for (const sentence of sentences) {
    expect(sentence).toMatch(/^[A-Z\d].*\.$/);
    expect(sentence.length).toBeLessThan(400);
  }
}

describe("bad files, each within 5 seconds and 512 MB", { timeout: 120_000 }, () => {
  it.each(hostileFiles.map((file) => [file.name, file] as const))("%s", async (name, { bytes, expected }) => {
    const shared = together.get(name);
    const file = shared ? "" : writeFile(name, bytes());
    for (const way of ways) {
      const outcome = shared?.[way] ?? (await readInChild(way, [file]))[0];
      if (!outcome) throw new Error("The process said nothing");
      expect(outcome.megabytes).toBeLessThan(512);
      expectSentences(outcome.sentences);
      if ("problem" in expected) expect(outcome.problem).toBe(expected.problem);
      else if (expected.notices.length === 0) expect(outcome.notices).toEqual([]);
      else expect(outcome.notices).toEqual(expect.arrayContaining([...expected.notices]));
    }
    if (file !== "") rmSync(file);
  });

  it("are at least sixty, no two of one name", () => {
    expect(hostileFiles.length).toBeGreaterThanOrEqual(60);
    expect(new Set(hostileFiles.map(({ name }) => name)).size).toBe(hostileFiles.length);
  });
});

const bytesOf = (name: string): Uint8Array => {
  const file = hostileFiles.find((found) => found.name === name);
  if (!file) throw new RangeError(name);
  return file.bytes();
};

function read(name: string) {
  const source = readScore(bytesOf(name));
  if (!source.ok) throw new Error(sayReadProblem(source.problem));
  return source.value.score;
}

describe("markup in texts", () => {
  it("comes out as the text that it is", () => {
    expect(read("markup in the title").title).toBe(evilText);
    expect(read("markup in a part's name").parts[0]?.name).toBe("<img src=x onerror=alert(1)>");
    expect(read("markup in words").parts[0]?.directions).toMatchObject([{ kind: "words", text: evilText }]);
    expect(read("markup in a lyric").parts[0]?.notes[0]?.lyric).toBe(evilText);
    expect(read("markup in CDATA").parts[0]?.directions).toMatchObject([{ text: "<svg onload=alert(1)>" }]);
    expect(read("markup in a bar number").bars[0]?.label).toBe("<b onclick=alert(1)>");
  });

  it("never becomes an id", () => {
    expect(read("markup in ids").parts[0]?.notes[0]?.id).toBe("n0-0-0");
  });

  it("does not touch the objects of the program", () => {
    expect(read("parts named __proto__ and constructor").parts.map(({ id }) => id)).toEqual([
      "__proto__",
      "constructor",
    ]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});

describe("files damaged at random", () => {
  const damage = fc.array(fc.tuple(fc.nat(goodFile.length - 1), fc.integer({ min: 0, max: 255 })), {
    maxLength: 8,
  });
  const sources = [goodFile, bytesOf("no list, one score"), bytesOf("UTF-16 big-endian with a mark")];

  it("are read or refused, never more", () => {
    fc.assert(
      fc.property(fc.constantFrom(...sources), damage, fc.nat(2_000), (source, changes, end) => {
        const bytes = source.slice(0, Math.max(1, source.length - (end > 1_000 ? 0 : end)));
        for (const [at, value] of changes) bytes[at % bytes.length] = value;
        const streamed = readScore(bytes);
        expect(readTree(bytes).ok).toBe(streamed.ok);
        if (!streamed.ok) expect(sayReadProblem(streamed.problem)).toMatch(/\.$/);
      }),
      { numRuns: 1_000 },
    );
  });
});

/** Null where no divisions can count all times of a bar, which `writeScore` says with a RangeError. */
function writtenOrTooFine(score: Score): string | null {
  try {
    return writeScore(score);
  } catch (error) {
    if (error instanceof RangeError && error.message.includes("divisions")) return null;
    throw error;
  }
}

describe("values gone wild", () => {
  const wild = fc.oneof(
    fc.constantFrom(
      "0",
      "-1",
      "1",
      "3",
      "NaN",
      "Infinity",
      "1e308",
      "-0",
      "",
      " ",
      "½",
      "9007199254740993",
      "99991",
      "0.00001",
      "1/3",
      "null",
    ),
    fc.integer({ min: -20, max: 2_000 }).map(String),
    fc.double().map(String),
    fc.string({ maxLength: 4, unit: fc.constantFrom("a", "7", "+", ".", "-", " ") }),
  );
  const of = (make: (...values: string[]) => string, count: number) =>
    fc.array(wild, { minLength: count, maxLength: count }).map((values) => make(...values));
  const types = fc.constantFrom("long", "quarter", "eighth", "1024th", "x");
  const content = fc.oneof(
    of(
      (d, o, a, s) =>
        `<note><pitch><step>C</step><alter>${a}</alter><octave>${o}</octave></pitch><duration>${d}</duration><staff>${s}</staff></note>`,
      4,
    ),
    fc
      .tuple(
        types,
        of(
          (a, n) =>
            `<time-modification><actual-notes>${a}</actual-notes><normal-notes>${n}</normal-notes></time-modification>`,
          2,
        ),
      )
      .map(([type, tuplet]) => `<note><rest/><type>${type}</type><dot/>${tuplet}</note>`),
    of(
      (d) => `<note><chord/><unpitched/><duration>${d}</duration></note><note><grace/><unpitched/></note>`,
      1,
    ),
    of((d, v) => `<note><rest measure="yes"/><duration>${d}</duration><voice>${v}</voice></note>`, 2),
    of((d) => `<forward><duration>${d}</duration></forward>`, 1),
    of((d) => `<backup><duration>${d}</duration></backup>`, 1),
    of((d) => `<attributes><divisions>${d}</divisions></attributes>`, 1),
    of(
      (b, t, c, u) =>
        `<attributes><time><beats>${b}</beats><beat-type>${t}</beat-type><beats>${c}</beats><beat-type>${u}</beat-type></time></attributes>`,
      4,
    ),
    of(
      (f, c, d, o) =>
        `<attributes><key><fifths>${f}</fifths></key><transpose><diatonic>${d}</diatonic><chromatic>${c}</chromatic><octave-change>${o}</octave-change></transpose></attributes>`,
      4,
    ),
    of(
      (n) =>
        `<attributes><measure-style><measure-repeat type="start">${n}</measure-repeat></measure-style></attributes>`,
      1,
    ),
    of(
      (t, o) =>
        `<sound tempo="${t}" segno="${o}"/><direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>${t}</per-minute></metronome></direction-type><offset>${o}</offset></direction>`,
      2,
    ),
    fc
      .array(
        of(
          (a, n) =>
            `<metronome-note><metronome-type>eighth</metronome-type><metronome-tuplet><actual-notes>${a}</actual-notes><normal-notes>${n}</normal-notes></metronome-tuplet></metronome-note>`,
          2,
        ),
        { maxLength: 6 },
      )
      .map(
        (notes) =>
          `<direction><direction-type><metronome>${notes.join("<metronome-relation>equals</metronome-relation>")}</metronome></direction-type></direction>`,
      ),
    of(
      (n, t) =>
        `<barline><ending number="${n}" type="start"/><repeat direction="backward" times="${t}"/></barline>`,
      2,
    ),
  );
  const measures = fc.array(fc.array(content, { maxLength: 8 }), { minLength: 1, maxLength: 4 });

  it("make a score that can be written and read again, or a problem, and throw nothing", () => {
    fc.assert(
      fc.property(measures, measures, (first, second) => {
        const part = (bars: string[][], id: string) =>
          `<part id="${id}">${bars.map((inside) => `<measure>${inside.join("")}</measure>`).join("")}</part>`;
        const text = `<score-partwise>${part(first, "P1")}${part(second, "P2")}</score-partwise>`.replaceAll(
          "½",
          "&#189;",
        );
        const source = readScore(new TextEncoder().encode(text));
        if (!source.ok) return;
        for (const bar of source.value.score.bars) expect(bar.length.num).toBeGreaterThan(0);
        const rewritten = writtenOrTooFine(source.value.score);
        if (rewritten === null) return;
        const again = readScore(new TextEncoder().encode(rewritten));
        expect(again.ok).toBe(true);
      }),
      { numRuns: 2_000 },
    );
  });
});
