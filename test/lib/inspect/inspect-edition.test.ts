import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { archiveEntries, hashBytes } from "@/lib/edition/archive/archive-entries";
import { writeEditionArchive } from "@/lib/edition/archive/write-edition-archive";
import type { Marks } from "@/lib/edition/edition-content";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { EditionReport } from "@/lib/inspect/edition-report";
import { inspectEdition } from "@/lib/inspect/inspect-edition";
import { isEditionArchive } from "@/lib/inspect/is-edition-archive";
import { sayEditionReport } from "@/lib/inspect/say-edition-report";
import { archivedSource, buildEditionArchive } from "@/test/builders/build-edition-archive";
import { at } from "@/test/builders/build-score";

function inspect(bytes: Uint8Array): EditionReport {
  const inspected = inspectEdition(bytes);
  if (!inspected.ok) throw new Error(inspected.problem.kind);
  return inspected.value;
}

const archive = buildEditionArchive();
const exported = writeEditionArchive(archive);

describe("an exported edition", () => {
  const report = inspect(exported);

  it("is told as plain data: checks, cuts, time, bars, chain, approvals", () => {
    expect(report).toMatchObject({ kind: "edition", number: 3, isWhole: true, isAsPacked: true });
    expect(report.hash).toBe(archive.editions[2]?.hash);
    // 17 bars of four seconds without the cuts; the last four at 120 instead of 60.
    expect(report.music).toMatchObject({
      runsSeconds: 4 * 13 + 2 * 4,
      cuts: [
        { name: "bar 5 beat 3 to bar 6 beat 3", savedSeconds: 4 },
        { name: "bars 11–12", savedSeconds: 8 },
      ],
      bars: [
        { first: "1", last: "4", plays: "whole" },
        { first: "5", last: "6", plays: "part" },
        { first: "7", last: "10", plays: "whole" },
        { first: "11", last: "12", plays: "none" },
        { first: "13", last: "20", plays: "whole" },
      ],
    });
    expect(report.editions.map(({ number, cutCount, changes }) => [number, cutCount, changes])).toEqual([
      [1, 0, ["Bar 17: 80 quarters a minute instead of the printed tempo."]],
      [2, 1, ["Cut added: bars 9–12, 0:16 shorter.", "Bar 17: 100 quarters a minute instead of 80."]],
      [
        3,
        2,
        [
          "Cut added: bar 5 beat 3 to bar 6 beat 3, 0:04 shorter.",
          "Cut 1 of № 2 begins two bars later and saves 0:08 less: bars 9–12 became bars 11–12.",
          "Bar 17: 120 quarters a minute instead of 100.",
        ],
      ],
    ]);
  });

  it("reads as lines for people", () => {
    const lines = sayEditionReport(report).split("\n");
    expect(lines[0]).toBe("Concertino · Véra N., edition № 3");
    expect(lines[1]).toBe(archive.editions[2]?.hash);
    expect(lines[2]).toMatch(/^Everything holds\./);
    expect(lines).toContain("  yes  Both players approved each edition, by its hash.");
    expect(lines).toContain("  2. bars 11–12, 0:08 saved");
    expect(lines).toContain("  5–6 played in part");
    expect(lines).toContain("      Matthis Orban (soloist) approved it 2026-05-03 10:00 UTC");
    expect(lines.join("\n")).not.toContain("NO ");
  });

  it("says so when another program packed it", () => {
    const repacked = inspect(zipSync(unzipSync(exported), { level: 1 }));
    expect(repacked).toMatchObject({ isWhole: true, isAsPacked: false });
    expect(sayEditionReport(repacked)).toContain("Another program packed these files");
  });
});

const place = (barIndex: number, offset = "0") => ({ barIndex, offset });
const rewrite: RewriteTerms = {
  ...{ kind: "rewrite", sourceHash: hashBytes(archivedSource), partId: "P2", from: place(2), to: place(4) },
  ...{ events: [], shown: "ossia", words: "tremolo for the repeated octaves" },
};

describe("marks of an exported edition", () => {
  const marks: Partial<Marks> = {
    breaths: [{ at: place(7) }, { at: place(8, "2") }],
    cues: [{ at: place(13), text: "Fl." }],
    rewrites: [rewrite],
    remarks: [{ from: place(16), to: place(18), text: "Wait for me.", by: "Nerys Quill" }],
  };
  const report = inspect(writeEditionArchive(buildEditionArchive(undefined, undefined, marks)));

  it("are told with their bars, and as what changed", () => {
    expect(report.isWhole).toBe(true);
    expect(report.music).toMatchObject({
      breaths: ["at the end of bar 7", "before bar 9 beat 3"],
      cues: ["bar 14: Fl."],
      rewrites: ["Ossia in bars 3–4: tremolo for the repeated octaves"],
      remarks: ["bars 17–18, Nerys Quill: “Wait for me.”"],
    });
    expect(report.editions[2]?.changes).toEqual(
      expect.arrayContaining(["Breath added at the end of bar 7.", "Fl. written over bar 14."]),
    );
  });

  it("read as lines for people", () => {
    const lines = sayEditionReport(report).split("\n");
    expect(lines).toEqual(
      expect.arrayContaining(["Breaths:", "  at the end of bar 7", "Cues:", "  bar 14: Fl.", "Rewrites:"]),
    );
    expect(lines).toContain("  bars 17–18, Nerys Quill: “Wait for me.”");
  });

  it.each<[string, Partial<Marks>, string]>([
    [
      "a breath outside the piece",
      { breaths: [{ at: place(40) }] },
      "A breath stands at bar 41 of the source, 0 quarters in, and there is no such place.",
    ],
    [
      "a rewrite of a part that is not there",
      { rewrites: [{ ...rewrite, partId: "P9" }] },
      "A rewrite is of part P9, which the music does not have.",
    ],
    [
      "rewrites that overlap",
      { rewrites: [rewrite, { ...rewrite, from: place(3), to: place(5) }] },
      "Two rewrites overlap in bar 4.",
    ],
    [
      "a remark that ends before it begins",
      { remarks: [{ from: place(5), to: place(4), text: "x", by: "Nerys Quill" }] },
      "Something ends before it begins, in bar 6.",
    ],
  ])("%s is said", (_name, wrong, sentence) => {
    const found = inspect(writeEditionArchive(buildEditionArchive([[]], undefined, wrong)));
    expect(found.isWhole).toBe(false);
    expect(found.checks.flatMap(({ sentences }) => sentences)).toContain(
      `What is written in № 1 does not fit. ${sentence}`,
    );
  });
});

const altered = (change: (files: Record<string, Uint8Array>) => void) => {
  const files = unzipSync(exported);
  change(files);
  return zipSync(files);
};

describe("what does not hold is said", () => {
  it("of a changed record", () => {
    const report = inspect(
      altered((files) => {
        const name = "editions/2/record.json";
        files[name] = strToU8(strFromU8(files[name]!).replace("Nerys Quill", "Dagny Thorsell"));
      }),
    );
    expect(report.isWhole).toBe(false);
    const text = sayEditionReport(report);
    expect(text).toContain("This is not edition № 3 as it was exported. One thing does not hold.");
    expect(text).toContain("  NO   editions/2/record.json was changed after it was packed.");
  });

  it.each<[string, Parameters<typeof buildEditionArchive>, string]>([
    [
      "a cut outside the piece",
      [[[{ from: at(8), to: at(40) }]]],
      "Cut 1 of № 1 cannot be made. The cut lies outside the piece, which has 20 bars. Choose both ends inside it.",
    ],
    [
      "cuts that overlap",
      [
        [
          [
            { from: at(2), to: at(5) },
            { from: at(4), to: at(8) },
          ],
        ],
      ],
      "Cut 2 of № 1 overlaps cut 1.",
    ],
    [
      "a piece without the bars of its tempi",
      [[[]], strToU8(strFromU8(archivedSource).replace(/<measure number="1[0-9]"[\s\S]*?<\/measure>/g, ""))],
      "The tempi of № 1 cannot be played. There is no place at bar 17 of the source, 0 quarters in.",
    ],
    [
      "music that is none",
      [[[]], strToU8("Dear Clara")],
      "The music of № 1 cannot be read. This is not a MusicXML file. Choose a .musicxml, .xml or .mxl file.",
    ],
  ])("of %s, although every hash is right", (_name, made, sentence) => {
    const report = inspect(writeEditionArchive(buildEditionArchive(...made)));
    expect(report.checks.filter(({ holds }) => !holds)).toEqual([
      { about: "cuts", holds: false, sentences: [sentence] },
    ]);
    expect(report.music).toBeNull();
    expect(sayEditionReport(report)).toContain("  cannot be told");
  });

  it("of half a character, which has no normal form", () => {
    const report = inspect(
      altered((files) => {
        files["manifest.json"] = strToU8(
          strFromU8(files["manifest.json"]!).replace("concertino.musicxml", "\\ud834"),
        );
      }),
    );
    expect(report).toMatchObject({ isWhole: false, isAsPacked: false });
  });

  it("in lines that draw nothing on the terminal", () => {
    const files = new Map(
      archiveEntries({ ...archive, piece: { ...archive.piece, title: "\u001b[31mred\u0007\nnext" } }),
    );
    expect(sayEditionReport(inspect(zipSync(Object.fromEntries(files)))).split("\n")[0]).toBe(
      "[31mred next · Véra N., edition № 3",
    );
  });
});

describe("an archive is taken for an exported edition", () => {
  it.each<[string, Uint8Array, boolean]>([
    ["when it is one", exported, true],
    ["without its list", altered((files) => delete files["manifest.json"]), true],
    [
      "not when it is compressed MusicXML",
      zipSync({ "META-INF/container.xml": strToU8("<x/>"), "manifest.json": strToU8("{}") }),
      false,
    ],
    ["not when it is some other archive", zipSync({ "a.musicxml": archivedSource }), false],
    ["not when it is no archive", archivedSource, false],
    ["not when it is cut off", exported.subarray(0, 200), false],
  ])("%s", (_name, bytes, is) => expect(isEditionArchive(bytes)).toBe(is));
});
