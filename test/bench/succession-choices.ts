import { ChordSuccessions } from "@/lib/cuts/join/chord-successions";
import type { Side } from "@/lib/cuts/join/side";
import { SideHearer } from "@/lib/cuts/join/side-hearer";
import { measureSuccession, successionFeatures } from "@/lib/cuts/join/succession-features";
import { readScore } from "@/lib/musicxml/read-score";
import { isEqualQuarters, noQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { corpusScores, readCorpusFile } from "../corpus/corpus-folder";
import type { Choice } from "./conditional-logit";

export interface SuccessionPiece {
  readonly name: string;
  readonly kind: "orchestra" | "song" | "solo and piano";
  readonly choices: readonly Choice[];
}

function kindOf(file: string, score: Score): SuccessionPiece["kind"] {
  if (score.parts.length >= 6) return "orchestra";
  if (/^songs|^harmony\/S/.test(file) || file.includes("aria")) return "song";
  return "solo and piano";
}

/** Every bar line of the piece with a full bar after it: what stands before, what follows. */
function barLines(score: Score): { before: Side; after: Side }[] {
  const hearer = new SideHearer(score);
  return score.bars.flatMap((bar) => {
    const position = { barIndex: bar.index, offset: noQuarters };
    if (bar.index === 0 || bar.isPickup || !isEqualQuarters(bar.length, bar.metreLength)) return [];
    const [before, after] = [hearer.before(position), hearer.after(position)];
    return before && after ? [{ before, after }] : [];
  });
}

/** At each bar line the true next bar among all bars of the piece. */
export function findChoices(score: Score): Choice[] {
  const lines = barLines(score);
  const width = successionFeatures.length;
  const successions = new ChordSuccessions(
    lines.map(({ before, after }) => ({ before: before.chord, after: after.chord })),
  );
  return lines.map(({ before, after: own }, taken) => {
    const rows = new Float64Array(lines.length * width);
    for (const [place, { after }] of lines.entries()) {
      const row = rows.subarray(place * width, (place + 1) * width);
      measureSuccession(before, after, successions, own.chord, row);
    }
    return { rows, taken };
  });
}

/** Every `step`th choice, with as many other candidates, evenly taken: enough to fit on. */
export function thinOut(choices: readonly Choice[], most: number): Choice[] {
  const width = successionFeatures.length;
  const step = Math.max(1, Math.ceil(choices.length / most));
  return choices
    .filter((_, place) => place % step === 0)
    .map(({ rows, taken }, place) => {
      const count = rows.length / width;
      const stride = Math.max(1, Math.ceil(count / most));
      const kept = [taken];
      for (let row = place % stride; row < count; row += stride) if (row !== taken) kept.push(row);
      return {
        taken: 0,
        rows: Float64Array.from(kept.flatMap((row) => [...rows.subarray(row * width, (row + 1) * width)])),
      };
    });
}

/** Scores of the corpus, by file name, but for lone melodies and a file that lies there twice. */
export function successionFiles(): string[] {
  return corpusScores("full-score", "harmony", "pairs", "solo-piano", "songs").filter(
    (file) => !/_melody|^pairs\/haydn/.test(file),
  );
}

/** What is fitted on a work is not tried on the same work in another setting. */
export function workOf(file: string): string {
  return /haydn_104_1|moniuszko_ruiny/.exec(file)?.[0] ?? file;
}

export function readCorpusScore(file: string): Score {
  const read = readScore(readCorpusFile(file));
  if (!read.ok) throw new RangeError(`${file}: ${read.problem.kind}`);
  return read.value.score;
}

export function readSuccessionPiece(file: string): SuccessionPiece {
  const score = readCorpusScore(file);
  return { name: file, kind: kindOf(file, score), choices: findChoices(score) };
}
