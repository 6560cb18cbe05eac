import { z } from "zod";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { hashText } from "@/lib/edition/hash-terms";
import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { printChangeSheet } from "@/lib/engrave/pdf/print-change-sheet";
import { printCutSheet } from "@/lib/engrave/pdf/print-cut-sheet";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import { type PrintOptions, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { writeEditionMusicXml } from "@/lib/musicxml/cut/write-edition";
import { readScore } from "@/lib/musicxml/read-score";
import { assignRoles } from "@/lib/score/assign-roles";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { type EditionPrint, printInputOf } from "@/lib/store/editions/print-input-of";
import { readEdition } from "@/lib/store/editions/read-edition";
import { listPageBreaks } from "@/lib/store/page-breaks/list-page-breaks";
import { parseInput } from "@/lib/store/parse-input";
import { listPerformances } from "@/lib/store/performances/list-performances";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { changeSheetOf } from "./change-sheet-of";
import { cutSheetOf, limitOf, nextOccasion } from "./cut-sheet-of";
import { readEditionPrint } from "./edition-print";
import { type Glimpse, glimpse, MadeLately } from "./print-lately";

const askedSchema = z.object({
  number: z.coerce.number().int().min(1).max(100_000),
  file: z.enum(["pianist.pdf", "soloist.pdf", "cut-sheet.pdf", "changes.pdf", "edition.musicxml"]),
  /** The edition with which `changes.pdf` compares: the one before unless another is asked for; 0 is the printed music. */
  from: z.coerce.number().int().min(0).max(100_000).optional(),
});

interface Asked extends z.infer<typeof askedSchema> {
  readonly options: PrintOptions;
}

export interface EditionFile {
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Everything that a file of an edition is made from. */
interface Edition extends EditionPrint {
  readonly piece: PieceRecord;
  readonly performances: readonly PerformanceRecord[];
  readonly pinnedBars: readonly number[];
  /** What `changes.pdf` compares with; null is the printed music. */
  readonly earlier: EditionRecord | null;
}

const files = new MadeLately<Uint8Array<ArrayBuffer>>(16);

/**
 * One of the files of an edition, or how far it is. An edition never changes, so a file that was made lately is given
 * again.
 */
export async function makeEditionFile(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<Glimpse<EditionFile>, StoreProblem>> {
  const asked = readAsked(input);
  if (!asked) return failure({ kind: "not-found" });
  const read = await readAll(viewer, pieceId, asked);
  if (!read.ok) return read;
  const edition = read.value;
  const making = files.join(keyOf(edition, asked), (report) => print(edition, asked, report));
  // Who can be told how far it is need not wait.
  const isPatient = !z.object({ soon: z.literal("yes") }).safeParse(input).success;
  const seen = await glimpse(making, { isPatient });
  if (!seen.ok || seen.value.state === "making") return seen as Result<Glimpse<EditionFile>, StoreProblem>;
  return success({ state: "made", value: { ...nameOf(edition, asked), bytes: seen.value.value } });
}

/** What is asked for; null when there is no such file, or none printed so. */
function readAsked(input: unknown): Asked | null {
  const asked = parseInput(askedSchema, input);
  if (!asked.ok) return null;
  const reader = asked.value.file === "soloist.pdf" ? "soloist" : "pianist";
  const options = parseInput(printOptionsSchema, Object.assign({}, input, { reader }));
  return options.ok ? { ...asked.value, options: options.value } : null;
}

async function readAll(
  viewer: Viewer,
  pieceId: string,
  { number, options, file, from = number - 1 }: Asked,
): Promise<Result<Edition, StoreProblem>> {
  const print = await readEditionPrint(viewer, pieceId, number);
  if (!print.ok) return print;
  const performances = await listPerformances(viewer, pieceId);
  // A reader gets the same music; where it is played is not theirs to read.
  if (!performances.ok && performances.problem.kind !== "not-allowed") return performances;
  const { sourceHash } = print.value.edition.content;
  const pins = await listPageBreaks(viewer, pieceId, { ...options, sourceHash });
  if (!pins.ok) return pins;
  const pinnedBars = pins.value.map(({ barIndex }) => barIndex);
  const earlier = file === "changes.pdf" && from > 0 ? await readEdition(viewer, pieceId, from) : null;
  if (earlier && !earlier.ok) return earlier;
  const played = performances.ok ? performances.value : [];
  const about = { performances: played, pinnedBars, earlier: earlier?.value ?? null };
  return success({ ...print.value, ...about });
}

/** Names everything that the file is made from: the edition by its hash, and what may change around it. */
function keyOf({ source: _bytes, ...about }: Edition, asked: Asked): string {
  const day = asked.file === "cut-sheet.pdf" ? today() : "";
  return hashText(JSON.stringify({ about, asked, engraverVersion, day }));
}

async function print(
  edition: Edition,
  asked: Asked,
  report: (progress: number) => void,
): Promise<Result<Uint8Array<ArrayBuffer>, StoreProblem>> {
  try {
    return success(new Uint8Array(await bytesOf(edition, asked, report)));
  } catch (error) {
    if (!(error instanceof EngraveFailure)) throw error;
    return failure({ kind: "not-engraved", sentence: sayEngraveProblem(error.problem) });
  }
}

async function bytesOf(
  all: Edition,
  { file, options }: Asked,
  report: (progress: number) => void,
): Promise<Uint8Array> {
  const input = printInputOf(all, options, all.pinnedBars);
  const { sourceMusicXml, partRoles, cuts, titleBlock } = input;
  switch (file) {
    case "pianist.pdf":
    case "soloist.pdf":
      return (await printEdition(input, report)).pdf;
    case "changes.pdf": {
      const { longTuttiBars } = all.piece;
      const changes = changeSheetOf(scoreOf(all), all.earlier, all.edition, longTuttiBars);
      return printChangeSheet({ paper: sheetPaper(options), titleBlock, ...changes });
    }
    case "cut-sheet.pdf": {
      const paper = sheetPaper(options);
      return printCutSheet({ sourceMusicXml, partRoles, paper, titleBlock, ...sheetOf(all) });
    }
    case "edition.musicxml": {
      const { editionNumber, frozenOn, hash } = titleBlock;
      const facts = { editionNumber, frozenOn, hash, partRoles, marks: all.edition.content };
      const text = writeEditionMusicXml({ sourceMusicXml, cuts, ...facts });
      return new TextEncoder().encode(text);
    }
  }
}

/** A sheet goes on paper, whatever the music is read from. */
const sheetPaper = ({ paper }: PrintOptions) => (paper === "tablet" ? "A4" : paper);

function scoreOf({ edition, source }: Edition): Score {
  const read = readScore(source);
  if (!read.ok) throw new Error(`the source of an edition cannot be read: ${read.problem.kind}`);
  return assignRoles(read.value.score, edition.content.partRoles);
}

function sheetOf(all: Edition) {
  const { piece, edition, performances } = all;
  return {
    ...cutSheetOf(scoreOf(all), edition, piece.longTuttiBars),
    limitSeconds: limitOf(piece, performances, edition.number, today()),
    occasion: nextOccasion(performances, edition.number, today()),
  };
}

function nameOf({ piece }: Edition, { number, file }: Asked): Pick<EditionFile, "name" | "type"> {
  const type = file.endsWith(".pdf") ? "application/pdf" : "application/vnd.recordare.musicxml+xml";
  const title = piece.title.replace(/[\\/:*?"<>|]/g, " ").trim();
  return { name: `${title}, no. ${number}, ${file.replace("edition.", "score.")}`, type };
}

const today = () => isoDateOf(new Date());
