import { describe, expect, it } from "vitest";
import { decodeText } from "@/lib/musicxml/decode-text";
import { readScore } from "@/lib/musicxml/read-score";
import type { Score } from "@/lib/score/score";
import { corpusFolder, corpusScores, readCorpusFile } from "@/test/corpus/corpus-folder";
import { conformanceTable } from "./conformance-table";

const files = corpusScores("conformance");

/** Its last part lacks a closing tag, which any XML parser reports. */
const damaged = "conformance/32ad-Notations5.musicxml";

/** The file whose name begins like this; a row may give the number alone. */
function fileNamed(start: string): string {
  return files.find((file) => file.startsWith(`conformance/${start}`)) ?? `conformance/${start}`;
}

function read(file: string): Score {
  const source = readScore(readCorpusFile(file));
  if (!source.ok) throw new Error(`${file}: ${source.problem.kind}`);
  return source.value.score;
}

describe.skipIf(corpusFolder === null)("conformance files", () => {
  it.each(files.filter((file) => file !== damaged && !file.endsWith(".mxl")))(
    "reads %s with every bar, note and rest in it",
    (file) => {
      const text = decodeText(readCorpusFile(file));
      if (!text.ok) throw new Error(text.problem.kind);
      const counted = countElements(text.value.text);
      const score = read(file);
      expect({
        bars: score.bars.length,
        notes: score.parts.reduce((sum, { notes }) => sum + notes.length, 0),
        rests: score.parts.reduce((sum, { rests }) => sum + rests.length, 0),
      }).toEqual(counted);
    },
  );

  it("says where the damaged file breaks off", () => {
    const source = readScore(readCorpusFile(damaged));
    expect(source).toMatchObject({ ok: false, problem: { kind: "not-well-formed", line: 141 } });
  });

  it.each(conformanceTable.map((row) => [row.file, row] as const))(
    "shows what %s is about",
    (file, { view, expected }) => {
      expect(view(read(fileNamed(file)))).toBe(expected);
    },
  );

  it("has an expectation for every file", () => {
    const covered = new Set(conformanceTable.map(({ file }) => fileNamed(file)));
    expect(files.filter((file) => !covered.has(file))).toEqual([damaged]);
  });
});

/** Elements counted in the text itself, by another way than the reader's. */
function countElements(text: string) {
  const count = (pattern: RegExp) => text.match(pattern)?.length ?? 0;
  const firstPart = text.slice(text.indexOf("<part "), text.indexOf("</part>"));
  const rests = count(/<rest[\s/>]/g);
  const bars = (firstPart || text.slice(text.indexOf("<part>"))).match(/<measure[\s>]/g)?.length ?? 0;
  return { bars, notes: count(/<note[\s>]/g) - rests, rests };
}
