import path from "node:path";
import { describe, expect, it } from "vitest";
import { type CutsReport, cutsReportSchema } from "@/lib/inspect/cuts-report";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { inspect, openFolder } from "./inspect-command";

const { folder, write } = openFolder();

function readReport(...args: string[]): CutsReport {
  const { status, stdout, stderr } = inspect(...args, "--json");
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  return cutsReportSchema.parse(JSON.parse(stdout));
}

const demo = write("concertino.musicxml", writeSoloAndReduction());
const rests = (...entries: object[]) => write(`rests-${entries.length}.json`, JSON.stringify(entries));

describe("npm run -s inspect -- FILE --cuts", () => {
  const lip = rests({ bar: "119", seconds: 25, why: "lip" });

  it("tells the best cuts of each tutti, long ones first", () => {
    const { status, stdout, stderr } = inspect(demo, "--cuts");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const heads = stdout.split("\n").filter((line) => /^Bars? \d/.test(line));
    expect(heads.map((line) => line.split(":")[0])).toEqual([
      "Bars 1–27, opening",
      "Bars 97–118, interlude",
      "Bars 45–49, interlude",
      "Bars 173–177, interlude",
    ]);
    expect(stdout).toMatch(/\n {3}1\. bars \d+–\d+ +saves 0:\d\d {2}clean\n {6}[A-Z][^\n]+\.\n/);
    expect(stdout).toMatch(/The soloist's rest before bar 28: 53 s, with the cut \d+ s\./);
    expect(stdout).not.toContain("Plan for");
  });

  it("prints the same as JSON, with the evidence of every join", () => {
    const report = readReport(demo, "--cuts");
    expect(report.plan).toBeNull();
    expect(report.tuttis.map(({ cuts }) => cuts.length <= 5)).not.toContain(false);
    const [opening] = report.tuttis;
    expect(opening).toMatchObject({ place: "opening", barCount: 27, isLong: true });
    expect(opening?.cuts.slice(0, 3).map(({ name }) => name)).toContain("bars 9–16");
    expect(opening?.starts[0]?.from).toEqual({ barIndex: 0, barLabel: "0", offset: "0" });
    for (const cut of opening?.cuts ?? []) expect(cut.rows.length).toBeGreaterThan(4);
  });

  it("plans to a limit and keeps the rest that is needed", () => {
    const { plan, needs } = readReport(demo, "--cuts", "--limit", "7:00", "--rests", lip);
    expect(needs).toMatchObject([{ entry: 1, why: "lip", verdict: "kept" }]);
    expect(plan?.best?.runsSeconds).toBeLessThanOrEqual(420);
    expect(plan?.best?.needs[0]).toMatchObject({ verdict: "kept" });
    expect(plan?.best?.needs[0]?.secondsAfter).toBeGreaterThanOrEqual(25);
    for (const other of plan?.runnersUp ?? []) {
      expect(other.runsSeconds).toBeLessThanOrEqual(420);
      expect(other.cuts.map(({ name }) => name)).not.toEqual(plan?.best?.cuts.map(({ name }) => name));
    }
    expect(plan?.shortest.runsSeconds).toBeLessThan(plan?.best?.runsSeconds ?? 0);
  });

  it("says in words what the plan is, and that the stage is slower than the numbers", () => {
    const { stdout } = inspect(demo, "--cuts", "--limit=7:00", "--rests", lip);
    expect(stdout).toMatch(
      /\nPlan for 7:00:\n {3}\d cuts? brings? 7:49 down to 6:\d\d, within the limit of 7:00\.\n/,
    );
    expect(stdout).toMatch(
      /Before bar 119: 46 s of rest, \d+ s with the cuts; 25 s needed \(lip\): enough\./,
    );
    expect(stdout).toMatch(/On stage that (will|may) run over 7:00/);
    expect(stdout).toContain("Other sets that fit:");
  });

  it("names the rest that stands in the way", () => {
    const whole = rests({ bar: "28", seconds: 50, why: "nerves" }, { bar: "119", bars: 22, why: "lip" });
    const { plan } = readReport(demo, "--cuts", "--limit", "7:05", "--rests", whole);
    expect(plan).toMatchObject({ best: null, runnersUp: [] });
    expect(plan?.obstacles.map(({ entry, why, unit }) => ({ entry, why, unit }))).toEqual([
      { entry: 1, why: "nerves", unit: "seconds" },
    ]);
    expect(plan?.obstacles[0]?.set.runsSeconds).toBeLessThanOrEqual(425);
    const { stdout } = inspect(demo, "--cuts", "--limit", "7:05", "--rests", whole);
    expect(stdout).toMatch(/One rest stands in the way \(nerves\)/);
    expect(stdout).toMatch(
      /With [\d.]+ s of rest \(nerves\), \d+ s less than needed, it would fit\. \d:\d\d: without bars/,
    );
  });

  it.each([
    ["a limit without cuts", [demo, "--limit", "7:00"], /^--limit is for --cuts/],
    ["a limit that is no time", [demo, "--cuts", "--limit", "soon"], /^The limit soon is no time/],
    ["a limit left out", [demo, "--cuts", "--limit"], /^--limit needs a value/],
    ["an option where a value should be", [demo, "--cuts", "--rests", "--json"], /^--rests needs a value/],
    [
      "rests that are absent",
      [demo, "--cuts", "--rests", path.join(folder, "none.json")],
      /^There is no file/,
    ],
    ["rests that are no JSON", [demo, "--cuts", "--rests", write("a.json", "bar 97")], /is not JSON/],
    [
      "a rest that is wrong",
      [
        demo,
        "--cuts",
        "--rests",
        write("b.json", '[{"bar":"119","seconds":9,"why":"lip"},{"bar":"900","bars":2,"why":"lip"}]'),
      ],
      /Entry 2 names bar 900, which the piece does not have \(its bars are 0–\d+\)\.$/m,
    ],
    [
      "a file that is no score",
      [write("letter.txt", "Dear Clara"), "--cuts"],
      /not MusicXML|not a MusicXML file/,
    ],
  ])("ends with 1 and a sentence for %s", (_name, args, sentence) => {
    const { status, stdout, stderr } = inspect(...args);
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    expect(stderr).toMatch(sentence);
    expect(stderr.trim().split("\n")).toHaveLength(1);
  });
});
