import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeScore } from "@/lib/musicxml/write-score";
import { writeTree } from "@/lib/musicxml/write-tree";
import type { ReadScore } from "@/lib/score/score";
import { corpusFolder, corpusScores, readCorpusFile } from "@/test/corpus/corpus-folder";
import { validateMusicXml } from "./validate-musicxml";

const real = corpusScores("solo-piano", "songs", "full-score", "pairs", "harmony");
const conformance = corpusScores("conformance").filter((file) => !file.includes("32ad"));
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

function read(bytes: Uint8Array): ReadScore {
  const source = readScore(bytes);
  if (!source.ok) throw new Error(source.problem.kind);
  return source.value;
}

function tree(file: string) {
  const source = readTree(readCorpusFile(file));
  if (!source.ok) throw new Error(source.problem.kind);
  return source.value;
}

describe.skipIf(corpusFolder === null)("real scores", { timeout: 120_000 }, () => {
  it.each(real)("reads every bar, note and rest of %s", (file) => {
    const { score } = read(readCorpusFile(file));
    const text = textInside(file);
    const parts = text.split(/<part id=/).slice(1);
    const count = (inside: string, pattern: RegExp) => inside.match(pattern)?.length ?? 0;
    expect(score.bars.length).toBe(count(parts[0] ?? "", /<measure[\s>]/g));
    expect(score.parts.map(({ notes, rests }) => `${notes.length} notes, ${rests.length} rests`)).toEqual(
      parts.map((part) => {
        const rests = count(part, /<rest[\s/>]/g);
        return `${count(part, /<note[\s>]/g) - rests} notes, ${rests} rests`;
      }),
    );
  });

  it.each([...real, ...conformance])("reads %s alike from a stream and from a tree", (file) => {
    const streamed = read(readCorpusFile(file));
    const fromTree = scoreFromTree(tree(file));
    expect(fromTree.score).toEqual(streamed.score);
    const kinds = ({ notices }: ReadScore) =>
      notices.map(({ kind, barLabel }) => `${kind} ${barLabel}`).sort();
    expect(kinds(fromTree)).toEqual(kinds(streamed));
  });

  it.each([...real, ...conformance])("reads %s back as it wrote it", (file) => {
    const { score } = read(readCorpusFile(file));
    expect(read(bytesOf(writeScore(score))).score).toEqual(score);
  });

  it("puts the same ids into the tree as into the score", () => {
    const file = "solo-piano/wieniawski_op4.mxl";
    const { score } = read(readCorpusFile(file));
    const text = writeTree(tree(file));
    const ids = new Set([...text.matchAll(/<(?:note|measure)\b[^>]*?\bid="([^"]*)"/g)].map(([, id]) => id));
    for (const { id } of [
      ...score.bars,
      ...score.parts.flatMap(({ notes, rests }) => [...notes, ...rests]),
    ]) {
      expect(ids.has(id)).toBe(true);
    }
  });
});

describe.skipIf(corpusFolder === null)("the MusicXML 4.0 schema", { timeout: 300_000 }, () => {
  const written = (file: string) => writeScore(read(readCorpusFile(file)).score);
  const texts = (files: readonly string[], make: (file: string) => string) =>
    new Map(files.map((file) => [file, make(file)]));

  it("holds for every conformance file written from the model", async () => {
    expect(await validateMusicXml(texts(conformance, written))).toEqual([]);
  });

  it.each(corpusScores("solo-piano", "songs"))("holds for %s written from the model", async (file) => {
    expect(await validateMusicXml(texts([file], written))).toEqual([]);
  });

  it("would tell of an element out of place", async () => {
    const broken = written("songs/schumann_dichterliebe_9.mxl").replace("<pitch>", "<voice>1</voice><pitch>");
    expect(await validateMusicXml(new Map([["broken.xml", broken]]))).not.toEqual([]);
  });

  it("holds for every tree whose source it holds for", async () => {
    const files = [...corpusScores("solo-piano"), ...conformance];
    const faults = await validateMusicXml(texts(files, textInside));
    const isValid = (file: string) =>
      faults.every((fault) => !fault.startsWith(file.replace(/[^\w.-]/g, "_")));
    const valid = files.filter(isValid);
    expect(valid.length).toBeGreaterThan(30);
    expect(await validateMusicXml(texts(valid, (file) => writeTree(tree(file))))).toEqual([]);
  });
});

/** Unzipped by the library itself, past the project's own reader. */
function textInside(file: string): string {
  const bytes = readCorpusFile(file);
  const entries = file.endsWith(".mxl") ? Object.entries(unzipSync(bytes)) : [[file, bytes] as const];
  const found = entries.find(([name]) => /^(?!META-INF).*\.(xml|musicxml)$/.test(name));
  if (!found) throw new Error(file);
  return new TextDecoder().decode(found[1]);
}
