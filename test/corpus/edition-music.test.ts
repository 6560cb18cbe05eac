import { describe, expect, it } from "vitest";
import { checkSpanners } from "@/lib/musicxml/check-spanners";
import { applyCuts, type Join } from "@/lib/musicxml/cut/apply-cuts";
import { readCuttable } from "@/lib/musicxml/cut/cuttable-score";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { showCuts } from "@/lib/musicxml/cut/show-cuts";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { writeLeadIns } from "@/lib/musicxml/lead-in/write-lead-ins";
import { writeMarks } from "@/lib/musicxml/marks/write-marks";
import { readScore } from "@/lib/musicxml/read-score";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";
import { assignRoles } from "@/lib/score/assign-roles";
import type { Score } from "@/lib/score/score";
import { randomNumbers } from "../lib/musicxml/cut/random-cuts";
import { corpusScores, readCorpusFile } from "./corpus-folder";
import { engraverWarnings } from "./engraver-warnings";
import { randomEdition } from "./random-edition";

/** Printed with every fault, so that it can be found again. */
const seed = Number(process.env.COLLA_SEED ?? 20261126);
/** Measures of all parts that are engraved whole; of longer pieces only what is around a join. */
const mostMeasures = 60;
const barsAround = 2;
/** Sources that say less than the engraver asks for in any part; it tells so of the parts that we did not complete. */
const poorSources = new Set(["conformance/41h-TooManyParts.xml"]);

const files = corpusScores("conformance", "solo-piano", "songs", "pairs", "harmony", "full-score");

/** Of the orchestra a cut is tried on its first parts: twenty-five staves say no more and take a minute. */
const mostParts = 4;

interface Source {
  readonly tree: MusicXmlTree;
  readonly score: Score;
}

function open(file: string): Source | null {
  const read = readTree(readCorpusFile(file));
  if (!read.ok) return null;
  const ids = read.value.parts.map(({ attributes }) => attributes.id ?? "");
  const tree = ids.length > mostParts ? keepParts(read.value, ids.slice(0, mostParts)) : read.value;
  const { score } = scoreFromTree(tree);
  const [first] = score.parts;
  // Without a solo part and a reduction nothing would be written: the first part stands for one, the last for the other.
  const last = score.parts.at(-1);
  const isDuo = ["solo", "reduction"].every((role) => score.parts.some((part) => part.role === role));
  const roles =
    isDuo || !first || !last ? {} : { [first.id]: "solo" as const, [last.id]: "reduction" as const };
  return { tree, score: assignRoles(score, roles) };
}

const rolesOf = ({ parts }: Score) => Object.fromEntries(parts.map(({ id, role }) => [id, role]));

function makeEdition({ tree, score }: Source, random: () => number) {
  const edition = randomEdition(random, score, readCuttable(tree, []).lengths);
  const written = writeMarks(
    writeRewrites(tree, score, edition.rewrites),
    score,
    edition.marks,
    rolesOf(score),
  );
  const { tree: cut, joins } = applyCuts(written, edition.cuts, { marks: true });
  const played = assignRoles(scoreFromTree(cut).score, rolesOf(score));
  const withLeadIns = writeLeadIns(cut, played, { minimalRestBars: 2 });
  return { edition, written, shown: showCuts(written, edition.cuts), joins, made: withLeadIns, played };
}

const faultsOf = (tree: MusicXmlTree): string[] =>
  checkSpanners(tree).map(({ name, key, fault, id }) => `${name} ${key} ${fault} at ${id}`);

function readAgain(tree: MusicXmlTree): Source {
  const bytes = new TextEncoder().encode(writeTree(tree));
  const [asTree, asScore] = [readTree(bytes), readScore(bytes)];
  if (!asTree.ok || !asScore.ok) throw new Error("The written file cannot be read");
  return { tree: asTree.value, score: asScore.value.score };
}

/** What the soloist sounds: ids, times and pitches of the notes that are no cues. */
function soloOf(score: Score, soloId: string | undefined): unknown {
  return score.parts
    .find(({ id }) => id === soloId)
    ?.notes.filter(({ isCue }) => !isCue)
    .map(({ id, onset, duration, sounding, voice, staff }) => ({
      id,
      onset,
      duration,
      sounding,
      voice,
      staff,
    }));
}

describe("editions of real scores", { timeout: 300_000 }, () => {
  it.each(files)("%s: written, read again, whole, engraved", async (file) => {
    const source = open(file);
    if (!source) return;
    const { edition, made, shown, played, joins } = makeEdition(source, randomNumbers(seed));
    const note = `seed ${seed}: ${JSON.stringify(edition)}`;
    const before = new Set(faultsOf(source.tree));
    for (const tree of [made, shown]) {
      const again = readAgain(tree);
      expect(
        faultsOf(again.tree).filter((fault) => !before.has(fault)),
        note,
      ).toEqual([]);
      expect(again.score.bars.length, note).toBe(childrenNamed(tree.parts[0]!, "measure").length);
      if (tree !== made) continue;
      const solo = played.parts.find(({ role }) => role === "solo");
      expect(soloOf(again.score, solo?.id), note).toEqual(soloOf(played, solo?.id));
    }
    if (!poorSources.has(file)) expect(await newWarnings(source, made, joins), note).toEqual([]);
  });
});

/** What the engraver says of an edition and not of its source: of all of a short piece, of what is around a join. */
async function newWarnings({ tree }: Source, made: MusicXmlTree, joins: readonly Join[]): Promise<string[]> {
  const isSmall = childrenNamed(made.parts[0]!, "measure").length * made.parts.length <= mostMeasures;
  const shown = joins.slice(0, 1);
  const now = isSmall ? [made] : shown.map(({ cutBarIndex }) => around(made, cutBarIndex));
  const warnings = new Set((await inTurn(now)).flat());
  if (warnings.size === 0) return [];
  const then = shown.flatMap(({ beforeBarIndex, afterBarIndex }) =>
    [beforeBarIndex, afterBarIndex].flatMap((bar) => (bar === null ? [] : [around(tree, bar)])),
  );
  const known = new Set((await inTurn(isSmall ? [tree] : then)).flat());
  return [...warnings].filter((warning) => !known.has(warning));
}

function around(tree: MusicXmlTree, barIndex: number): MusicXmlTree {
  const last = childrenNamed(tree.parts[0]!, "measure").length - 1;
  const first = Math.max(0, Math.min(barIndex - barsAround, last));
  return takeExcerpt(tree, first, Math.min(last, first + 2 * barsAround - 1));
}

async function inTurn(trees: readonly MusicXmlTree[]): Promise<string[][]> {
  const warnings: string[][] = [];
  for (const tree of trees) warnings.push(await engraverWarnings(tree));
  return warnings;
}
