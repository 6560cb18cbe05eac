import { describe, expect, it } from "vitest";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { readTree } from "@/lib/musicxml/read-tree";
import { corpusScores, readCorpusFile } from "@/test/corpus/corpus-folder";
import { findFaults, readAsPlayer } from "./find-faults";
import { randomNumbers } from "./random-cuts";
import { all, bars, labels, note, opening, source, xml } from "./small-source";

const whole = (pitch: string) => note(pitch, 16);

describe("takeExcerpt", () => {
  it("takes both ends, with what holds there", () => {
    const flats = "<attributes><key><fifths>-3</fifths></key></attributes>";
    const excerpt = takeExcerpt(source([whole("C5"), flats + whole("D5"), whole("E5"), whole("F5")]), 2, 3);
    expect(labels(excerpt)).toEqual(["3", "4"]);
    expect(xml(all(bars(excerpt)[0], "attributes")[0])).toBe(opening.replace("<fifths>0", "<fifths>-3"));
    expect(all(bars(excerpt)[1], "barline")).toEqual([]);
  });

  it("leaves no half of a slur or an ending", () => {
    const ending = (type: string, side: string) =>
      `<barline location="${side}"><ending number="1" type="${type}"/></barline>`;
    const tree = source([
      whole("C5"),
      ending("start", "left") + note("D5", 16, { notations: '<slur type="start"/>' }),
      whole("E5"),
      note("F5", 16, { notations: '<slur type="stop"/>' }) + ending("stop", "right"),
    ]);
    const excerpt = takeExcerpt(tree, 1, 2);
    expect(all(excerpt.root, "ending")).toEqual([]);
    expect(findFaults(excerpt)).toEqual([]);
  });

  it.each([
    [3, 2],
    [0, 4],
    [-1, 0],
  ])("refuses bars %i to %i", (first, last) => {
    const tree = source(["C5", "D5", "E5", "F5"].map(whole));
    expect(() => takeExcerpt(tree, first, last)).toThrow(RangeError);
  });

  it.each(corpusScores("solo-piano"))("%s reads the same in excerpts", (file) => {
    const tree = readTree(readCorpusFile(file));
    if (!tree.ok) throw new Error(tree.problem.kind);
    const known = new Set(findFaults(tree.value));
    const before = readAsPlayer(tree.value);
    const random = randomNumbers(7);
    for (let turn = 0; turn < 4; turn += 1) {
      const first = Math.floor(random() * (bars(tree.value).length - 4));
      const excerpt = takeExcerpt(tree.value, first, first + 3);
      expect(findFaults(excerpt).filter((fault) => !known.has(fault))).toEqual([]);
      for (const [id, now] of readAsPlayer(excerpt)) {
        const then = before.get(id);
        expect([now.clef, now.key, now.metre, now.pitch, now.quarters], id).toEqual(
          then && [then.clef, then.key, then.metre, then.pitch, then.quarters],
        );
      }
    }
  });
});
