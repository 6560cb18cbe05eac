import { describe, expect, it } from "vitest";
import { applyCuts } from "@/lib/musicxml/cut/apply-cuts";
import { readCuttable } from "@/lib/musicxml/cut/cuttable-score";
import { readScore } from "@/lib/musicxml/read-score";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Note } from "@/lib/score/note";
import { comparePositions } from "@/lib/score/position";
import { addQuarters, isEqualQuarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { corpusScores, readCorpusFile } from "@/test/corpus/corpus-folder";
import { findSchemaFaults, hasSchema } from "../schema";
import { findFaults, type NoteReading, readAsPlayer } from "./find-faults";
import { randomCuts, randomNumbers } from "./random-cuts";

const cutsOfEachFile = 6;
/** Printed with every fault, so that it can be found again. */
const seed = Number(process.env.COLLA_SEED ?? 20260226);

// Full scores of a symphony are cut too, but take long: one of them stands for all.
const files = corpusScores("solo-piano", "songs", "pairs", "harmony");

describe("random cuts of real scores", () => {
  it.each(files)("%s", (file) => {
    const source = readCorpusFile(file);
    const tree = treeOf(source);
    const before = {
      faults: new Set(findFaults(tree)),
      readings: readAsPlayer(tree),
      score: scoreOf(source),
    };
    const { lengths } = readCuttable(tree, []);
    const random = randomNumbers(seed);
    for (let turn = 0; turn < cutsOfEachFile; turn += 1) {
      const cuts = randomCuts(random, lengths);
      const text = writeTree(applyCuts(tree, cuts, { marks: true }).tree);
      const bytes = new TextEncoder().encode(text);
      const faults = [
        ...findFaults(treeOf(bytes)).filter((fault) => !before.faults.has(fault)),
        ...compareReadings(before.readings, readAsPlayer(treeOf(bytes))),
        ...compareScores(before.score, scoreOf(bytes), cuts),
      ];
      expect(faults.slice(0, 5), `seed ${seed}, turn ${turn}: ${JSON.stringify(cuts)}`).toEqual([]);
    }
  });
});

describe.skipIf(!hasSchema)("cut files are valid MusicXML 4.0", () => {
  it.each(files.filter((file) => /op4|mermaids|monbar|Ave_Maria|traeume/.test(file)))("%s", async (file) => {
    const source = readCorpusFile(file);
    const tree = treeOf(source);
    // Faults of the source are its own.
    const before = new Set(await findSchemaFaults(writeTree(tree)));
    const cuts = randomCuts(randomNumbers(seed), readCuttable(tree, []).lengths);
    const after = await findSchemaFaults(writeTree(applyCuts(tree, cuts, { marks: true }).tree));
    expect(after.filter((fault) => !before.has(fault))).toEqual([]);
  });
});

function treeOf(bytes: Uint8Array): MusicXmlTree {
  const tree = readTree(bytes);
  if (!tree.ok) throw new Error(tree.problem.kind);
  return tree.value;
}

function scoreOf(bytes: Uint8Array): Score {
  const read = readScore(bytes);
  if (!read.ok) throw new Error(read.problem.kind);
  return read.value.score;
}

/** What a player takes from a note of the cut piece that is not what the source says. */
function compareReadings(before: Map<string, NoteReading>, after: Map<string, NoteReading>): string[] {
  return [...after].flatMap(([id, now]) => {
    const then = before.get(id.replace(/-held\d+$/, ""));
    if (!then) return [`${id} is new`];
    const changed = (["clef", "key", "metre", "pitch"] as const).filter((name) => then[name] !== now[name]);
    const faults = changed.map((name) => `${id}: ${name} ${then[name]} became ${now[name]}`);
    return then.isPitchClear && !now.isPitchClear
      ? [...faults, `${id}: ${then.pitch} is no longer clear`]
      : faults;
  });
}

/** The notes outside the cuts, by id, must be those of the cut piece; bars must add up. */
function compareScores(before: Score, after: Score, cuts: readonly CutSpan[]): string[] {
  const expected = new Map(
    before.parts.flatMap((part) => part.notes.map((note) => [note.id, note] as const)),
  );
  const found = new Map(after.parts.flatMap((part) => part.notes.map((note) => [note.id, note] as const)));
  const faults: string[] = [];
  for (const [id, note] of expected) {
    const state = stateOf(before, note, cuts);
    const now = found.get(id);
    if (state === "cut" && now) faults.push(`${id} should be cut`);
    if (state !== "whole") continue;
    if (!now) faults.push(`${id} is lost`);
    else if (describeNote(note) !== describeNote(now))
      faults.push(`${id}: ${describeNote(note)} became ${describeNote(now)}`);
  }
  return [...faults, ...compareLengths(before, after, cuts)];
}

const describeNote = (note: Note): string =>
  JSON.stringify([
    note.written,
    note.sounding,
    writeQuarters(note.duration),
    note.voice,
    note.staff,
    note.isGrace,
  ]);

function stateOf(score: Score, note: Note, cuts: readonly CutSpan[]): "whole" | "cut" | "shortened" {
  const bar = score.bars[note.barIndex];
  if (!bar) return "whole";
  const from = { barIndex: note.barIndex, offset: subtractQuarters(note.onset, bar.start) };
  const to = { barIndex: note.barIndex, offset: addQuarters(from.offset, note.duration) };
  for (const cut of cuts.filter((each) => comparePositions(each.from, each.to) < 0)) {
    const isInside = comparePositions(from, cut.from) >= 0 && comparePositions(from, cut.to) < 0;
    const endsInside = comparePositions(to, cut.from) > 0 && comparePositions(from, cut.to) < 0;
    if (isInside && comparePositions(to, cut.to) <= 0) return "cut";
    if (isInside || endsInside) return "shortened";
  }
  return "whole";
}

/** A bar that kept its id and lies wholly outside the cuts keeps its length. */
function compareLengths(before: Score, after: Score, cuts: readonly CutSpan[]): string[] {
  const touched = new Set(cuts.flatMap((cut) => [cut.from.barIndex, cut.to.barIndex]));
  const lengths = new Map(before.bars.map((bar) => [bar.id, bar]));
  return after.bars.flatMap((bar) => {
    const source = lengths.get(bar.id);
    if (!source) return [`bar ${bar.id} is new`];
    const isKept = touched.has(source.index) || isEqualQuarters(bar.length, source.length);
    return isKept && bar.label === source.label ? [] : [`bar ${source.label} changed`];
  });
}
