import { afterAll, describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { compareTimemap } from "./compare-timemap";
import { corpusScores, readCorpusFile } from "./corpus-folder";
import { Engraver } from "./engraver-timemap";
import { writePlainSource } from "./plain-source";
import { explainedDifferences } from "./timemap-differences";

// Bar starts, onsets, durations, seconds and performed order against the engraving library's own timemap, note by
// note, for every file. What differs stands in timemap-differences.ts with its reason: a difference that is not there
// fails, and so does one that is there and no longer occurs.

/** No parser takes it: an end tag in it closes another element. */
const broken = "conformance/32ad-Notations5.musicxml";

const files = corpusScores("solo-piano", "songs", "pairs", "harmony", "full-score", "conformance").filter(
  (file) => file !== broken,
);

describe.skipIf(files.length === 0)("time against the engraver's timemap", () => {
  const engraver = new Engraver();
  afterAll(() => engraver.close());

  it.each(files)("%s", { timeout: 120_000 }, async (file) => {
    const bytes = readCorpusFile(file);
    const tree = readTree(bytes);
    const read = readScore(bytes);
    if (!tree.ok || !read.ok) throw new Error("The source was not read");
    const { score } = read.value;
    const timemap = await engraver.timemap(writePlainSource(tree.value));
    const found = compareTimemap(score, findPerformedOrder(score), timemap);
    const explained = explainedDifferences.find((difference) => difference.file === file);
    expect(found).toEqual(explained?.differences ?? []);
  });

  it("explains each file once, and only files that are compared", () => {
    const explained = explainedDifferences.map(({ file }) => file);
    expect(explained.filter((file) => !files.includes(file))).toEqual([]);
    expect(new Set(explained).size).toBe(explained.length);
  });
});
