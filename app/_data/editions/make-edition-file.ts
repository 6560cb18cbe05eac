import { z } from "zod";
import { hashText } from "@/lib/edition/hash-terms";
import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { printCutSheet } from "@/lib/engrave/pdf/print-cut-sheet";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import { type PrintOptions, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { writeEditionMusicXml } from "@/lib/musicxml/cut/write-edition";
import { readScore } from "@/lib/musicxml/read-score";
import { assignRoles } from "@/lib/score/assign-roles";
import { failure, type Result, success } from "@/lib/score/result";
import { listPageBreaks } from "@/lib/store/page-breaks/list-page-breaks";
import { parseInput } from "@/lib/store/parse-input";
import { listPerformances } from "@/lib/store/performances/list-performances";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { cutSheetOf, limitOf, nextOccasion } from "./cut-sheet-of";
import { dateOf, type EditionPrint, printInputOf, readEditionPrint } from "./edition-print";
import { type Printed, printLately } from "./print-lately";

const askedSchema = z.object({
  number: z.coerce.number().int().min(1).max(100_000),
  file: z.enum(["pianist.pdf", "soloist.pdf", "cut-sheet.pdf", "edition.musicxml"]),
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
}

/** One of the files of an edition. An edition never changes, so a file that was made lately is given again. */
export async function makeEditionFile(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<EditionFile, StoreProblem>> {
  const asked = readAsked(input);
  if (!asked) return failure({ kind: "not-found" });
  const read = await readAll(viewer, pieceId, asked);
  if (!read.ok) return read;
  const edition = read.value;
  const bytes = await printLately(keyOf(edition, asked), () => print(edition, asked));
  return bytes.ok ? success({ ...nameOf(edition, asked), bytes: bytes.value }) : bytes;
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
  { number, options }: Asked,
): Promise<Result<Edition, StoreProblem>> {
  const print = await readEditionPrint(viewer, pieceId, number);
  if (!print.ok) return print;
  const performances = await listPerformances(viewer, pieceId);
  if (!performances.ok) return performances;
  const { sourceHash } = print.value.edition.content;
  const pins = await listPageBreaks(viewer, pieceId, { ...options, sourceHash });
  if (!pins.ok) return pins;
  const pinnedBars = pins.value.map(({ barIndex }) => barIndex);
  return success({ ...print.value, performances: performances.value, pinnedBars });
}

/** Names everything that the file is made from: the edition by its hash, and what may change around it. */
function keyOf({ source: _bytes, ...about }: Edition, asked: Asked): string {
  const day = asked.file === "cut-sheet.pdf" ? today() : "";
  return hashText(JSON.stringify({ about, asked, engraverVersion, day }));
}

async function print(edition: Edition, asked: Asked): Promise<Printed> {
  try {
    return success(new Uint8Array(await bytesOf(edition, asked)));
  } catch (error) {
    if (!(error instanceof EngraveFailure)) throw error;
    return failure({ kind: "not-engraved", sentence: sayEngraveProblem(error.problem) });
  }
}

async function bytesOf(all: Edition, { file, options }: Asked): Promise<Uint8Array> {
  const input = printInputOf(all, options, all.pinnedBars);
  const { sourceMusicXml, partRoles, cuts, titleBlock } = input;
  switch (file) {
    case "pianist.pdf":
    case "soloist.pdf":
      return (await printEdition(input)).pdf;
    case "cut-sheet.pdf": {
      // It goes on paper, whatever the music is read from.
      const paper = options.paper === "tablet" ? "A4" : options.paper;
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

function sheetOf({ piece, edition, performances, source }: Edition) {
  const read = readScore(source);
  if (!read.ok) throw new Error(`the source of an edition cannot be read: ${read.problem.kind}`);
  const score = assignRoles(read.value.score, edition.content.partRoles);
  return {
    ...cutSheetOf(score, edition, piece.longTuttiBars),
    limitSeconds: limitOf(piece, performances, edition.number, today()),
    occasion: nextOccasion(performances, edition.number, today()),
  };
}

function nameOf({ piece }: Edition, { number, file }: Asked): Pick<EditionFile, "name" | "type"> {
  const type = file.endsWith(".pdf") ? "application/pdf" : "application/vnd.recordare.musicxml+xml";
  const title = piece.title.replace(/[\\/:*?"<>|]/g, " ").trim();
  return { name: `${title}, no. ${number}, ${file.replace("edition.", "score.")}`, type };
}

const today = () => dateOf(new Date());
