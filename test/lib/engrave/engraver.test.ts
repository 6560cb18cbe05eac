import { readFileSync, writeFileSync } from "node:fs";
import { mkdtemp, readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { EngraveFailure } from "@/lib/engrave/engrave-problem";
import { endEngraver, engraveScreen } from "@/lib/engrave/engraver";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import type { EngravedSystem, ScreenEngraving } from "@/lib/engrave/screen-engraving";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { corpusScores, readCorpusFile } from "@/test/corpus/corpus-folder";
import { cut } from "../musicxml/cut/small-source";

const bytes = (text: string) => new TextEncoder().encode(text);

function withIds(source: Uint8Array): string {
  const tree = readTree(source);
  if (!tree.ok) throw new Error(tree.problem.kind);
  return writeTree(tree.value);
}

const idsOf = ({ systems }: ScreenEngraving, className: string): string[] =>
  systems.flatMap(({ svg }) => {
    const groups = svg.match(/<g [^>]*>/g) ?? [];
    const named = groups.filter((group) => new RegExp(`class="(?:[^"]* )?${className}[ "]`).test(group));
    return named.flatMap((group) => /id="([^"]+)"/.exec(group)?.[1] ?? []);
  });

/** Bars of all systems one after the other. */
const barsOf = ({ systems }: ScreenEngraving): number[] =>
  systems.flatMap(({ bars }) => bars.map(({ barIndex }) => barIndex));

const upTo = (count: number): number[] => Array.from({ length: count }, (_, index) => index);

describe("engraveScreen", () => {
  it.each([
    ["desk", 940],
    ["tablet", 800],
    ["phone", 366],
  ] as const)("engraves the concertino for the %s, one system to a picture", async (layout, pixels) => {
    const progress: number[] = [];
    const streamed: EngravedSystem[] = [];
    const engraving = await engraveScreen({
      musicXml: writeSoloAndReduction(),
      layout,
      onProgress: (done) => progress.push(done),
      onSystem: (system, systemCount) => {
        streamed.push(system);
        expect(systemCount).toBeGreaterThan(5);
      },
    });
    const score = readScore(bytes(writeSoloAndReduction()));
    expect(engraving.rendererVersion).toBe(engraverVersion);
    expect(barsOf(engraving)).toEqual(upTo(score.ok ? score.value.score.bars.length : 0));
    expect(streamed).toEqual(engraving.systems);
    expect(progress).toEqual(progress.toSorted((a, b) => a - b));
    expect(progress.at(-1)).toBe(1);
    for (const system of engraving.systems) {
      expect(system.svg.match(/class="system"/g)).toHaveLength(2);
      // 24 pixels a staff, 22 on the phone.
      expect((720 / system.width) * pixels).toBeCloseTo(layout === "phone" ? 22 : 24, 0);
      expect(
        system.bars.every(
          (bar) => bar.staves.length === 3 && bar.x >= 0 && bar.x + bar.width <= system.width,
        ),
      ).toBe(true);
      expect(system.bars.every((bar) => bar.top > 0 && bar.bottom < system.height)).toBe(true);
    }
  });

  it("keeps engravings under the version of the library that made them", () => {
    const { version } = JSON.parse(readFileSync("node_modules/verovio/package.json", "utf8")) as {
      version: string;
    };
    expect(engraverVersion).toMatch(new RegExp(`^verovio-${version.replaceAll(".", "\\.")}\\+\\d+$`));
  });

  it("gives the same picture for the same score", async () => {
    const [first, second] = [
      await engraveScreen({ musicXml: smallScore("a"), layout: "desk" }),
      await engraveScreen({ musicXml: smallScore("a"), layout: "desk" }),
    ];
    expect(second).toEqual(first);
  });

  it("draws some parts of a source, with cuts carried out", async () => {
    const source = bytes(writeSoloAndReduction());
    const engraving = await engraveScreen({
      source,
      partIds: ["P2"],
      cuts: [cut("9 to 21")],
      layout: "desk",
    });
    expect(barsOf(engraving)).toHaveLength(214 - 12);
    expect(engraving.systems.every(({ bars }) => bars.every(({ staves }) => staves.length === 2))).toBe(true);
    expect(idsOf(engraving, "measure").slice(7, 9)).toEqual(["b7", "b20"]);
    expect(engraving.systems.map(({ svg }) => svg).join()).toMatch(/Vi–[\s\S]*–de/);
  });

  it("lets nothing that a score says act", async () => {
    const attack = `&lt;script&gt;alert(1)&lt;/script&gt;&lt;img src=x onerror=alert(1)&gt;" onload="alert(1)`;
    const { systems } = await engraveScreen({ musicXml: smallScore(attack), layout: "desk" });
    const svg = systems.map((system) => system.svg).join("");
    expect(svg).toContain("&lt;script&gt;");
    expect(svg.replace(/>[^<]*</g, "><")).not.toMatch(/script|img|onload|onerror| style=|<style|url/i);
  });

  it("answers with a typed failure when there is nothing to engrave", async () => {
    const failure = await engraveScreen({ musicXml: "<score-partwise/>", layout: "desk" }).catch(
      (error: unknown) => error,
    );
    expect(failure).toBeInstanceOf(EngraveFailure);
    expect(failure instanceof EngraveFailure && failure.problem.kind).toBe("not-engravable");
  });

  it("gives each staff its own key after a change", async () => {
    const { systems } = await engraveScreen({ musicXml: transposingScore(), layout: "desk" });
    const second = systems[0]?.svg.split('id="b1"')[1] ?? "";
    const signs = second
      .split('class="staff"')
      .slice(1)
      .map((staff) => staff.match(/class="keyAccid"/g)?.length ?? 0);
    // Clarinet in B flat: from D major to B minor's sharps less one; piano: C major to B flat major.
    expect(signs).toEqual([1, 2]);
  });
});

describe("engraving keeps every note of real scores", () => {
  it.each(corpusScores("solo-piano", "songs"))("%s", async (file) => {
    const source = readCorpusFile(file);
    const read = readScore(source);
    if (!read.ok) throw new Error(read.problem.kind);
    const engraving = await engraveScreen({ musicXml: withIds(source), layout: "desk" });
    const drawn = new Set(idsOf(engraving, "note"));
    const notes = read.value.score.parts.flatMap((part) => part.notes);
    const lost = notes.filter((note) => !note.isHidden && !drawn.has(note.id));
    expect(barsOf(engraving)).toEqual(upTo(read.value.score.bars.length));
    expect(idsOf(engraving, "measure")).toEqual(read.value.score.bars.map(({ id }) => id));
    expect(lost.map(({ id }) => id)).toEqual([]);
  });
});

describe("a thread that dies", () => {
  afterEach(() => {
    vi.unstubAllEnvs();
    endEngraver();
  });

  /** A thread that ends at once as often as a file says, then answers. */
  async function setDyingThread(deaths: number): Promise<string> {
    const folder = await mkdtemp(path.join(tmpdir(), "colla-thread-"));
    const counter = path.join(folder, "deaths");
    writeFileSync(counter, `${deaths}`);
    const file = path.join(folder, "thread.mjs");
    writeFileSync(
      file,
      `import fs from "node:fs"; import { parentPort } from "node:worker_threads";
      parentPort.on("message", ({ id }) => {
        const left = Number(fs.readFileSync(${JSON.stringify(counter)}, "utf8"));
        fs.writeFileSync(${JSON.stringify(counter)}, String(left - 1));
        if (left > 0) throw new WebAssembly.RuntimeError("unreachable");
        parentPort.postMessage({ id, kind: "done", value: { rendererVersion: "x", systems: [] }, memory: 1 });
      });`,
    );
    endEngraver();
    vi.stubEnv("COLLA_ENGRAVE_WORKER", file);
    return counter;
  }

  it("is replaced, and the job tried once more", async () => {
    const counter = await setDyingThread(1);
    await expect(engraveScreen({ musicXml: "x", layout: "desk" })).resolves.toMatchObject({ systems: [] });
    expect(await readFile(counter, "utf8")).toBe("-1");
  });

  it("is given up after the second time, and the next job gets a new one", async () => {
    await setDyingThread(2);
    const failure = await engraveScreen({ musicXml: "x", layout: "desk" }).catch((error: unknown) => error);
    expect(failure instanceof EngraveFailure && failure.problem).toMatchObject({ kind: "engraver-crashed" });
    await expect(engraveScreen({ musicXml: "x", layout: "desk" })).resolves.toMatchObject({ systems: [] });
  });

  it("does not let more wait than will be served", async () => {
    await setDyingThread(0);
    const jobs = Array.from({ length: 120 }, () =>
      engraveScreen({ musicXml: "x", layout: "desk" }).catch((error: unknown) => error),
    );
    const failures = (await Promise.all(jobs)).filter((result) => result instanceof EngraveFailure);
    expect(failures.length).toBe(20);
    expect(failures[0]).toMatchObject({ problem: { kind: "engraver-busy" } });
  });
});

const bar = (number: number, inside: string) => `<measure number="${number}">${inside}</measure>`;
const whole =
  "<note><pitch><step>C</step><octave>5</octave></pitch><duration>4</duration><type>whole</type></note>";

function smallScore(text: string): string {
  const words = `<direction placement="above"><direction-type><words>${text}</words></direction-type></direction>`;
  const lyric = `<lyric><text>${text}</text></lyric></note>`;
  const start = "<attributes><divisions>1</divisions><clef><sign>G</sign><line>2</line></clef></attributes>";
  return `<score-partwise version="4.0"><work><work-title>${text}</work-title></work><part-list><score-part id="P1"><part-name>${text}</part-name></score-part></part-list><part id="P1">${bar(1, start + words + whole.replace("</note>", lyric))}${bar(2, `<direction><direction-type><rehearsal>${text}</rehearsal></direction-type></direction>${whole}`)}</part></score-partwise>`;
}

function transposingScore(): string {
  const start = (fifths: number, more: string) =>
    `<attributes><divisions>1</divisions><key><fifths>${fifths}</fifths></key><clef><sign>G</sign><line>2</line></clef>${more}</attributes>`;
  const key = (fifths: number) => `<attributes><key><fifths>${fifths}</fifths></key></attributes>`;
  const transpose = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>";
  return withIds(
    bytes(
      `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Clarinet</part-name></score-part><score-part id="P2"><part-name>Piano</part-name></score-part></part-list><part id="P1">${bar(1, start(0, transpose) + whole)}${bar(2, key(1) + whole)}</part><part id="P2">${bar(1, start(0, "") + whole)}${bar(2, key(-2) + whole)}</part></score-partwise>`,
    ),
  );
}
