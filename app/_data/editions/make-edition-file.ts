import { z } from "zod";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { hashText } from "@/lib/edition/hash-terms";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { printCutSheet } from "@/lib/engrave/pdf/print-cut-sheet";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import type { TitleBlock } from "@/lib/engrave/pdf/print-input";
import { writeEditionMusicXml } from "@/lib/musicxml/cut/write-edition";
import { readScore } from "@/lib/musicxml/read-score";
import { assignRoles } from "@/lib/score/assign-roles";
import { failure, type Result, success } from "@/lib/score/result";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { readEdition } from "@/lib/store/editions/read-edition";
import { parseInput } from "@/lib/store/parse-input";
import { listPerformances } from "@/lib/store/performances/list-performances";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { cutSheetOf, limitOf, nextOccasion } from "./cut-sheet-of";
import { type Printed, printLately } from "./print-lately";

const askedSchema = z.object({
  number: z.coerce.number().int().min(1).max(100_000),
  file: z.enum(["pianist.pdf", "soloist.pdf", "cut-sheet.pdf", "edition.musicxml"]),
  paper: z.enum(["A4", "Letter"], "Paper is A4 or Letter.").default("A4"),
});

type Asked = z.infer<typeof askedSchema>;

export interface EditionFile {
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Everything that a file of an edition is made from. */
interface Edition {
  readonly piece: PieceRecord;
  readonly edition: EditionRecord;
  readonly performances: readonly PerformanceRecord[];
  readonly source: Uint8Array;
}

/** One of the files of an edition. An edition never changes, so a file that was made lately is given again. */
export async function makeEditionFile(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<EditionFile, StoreProblem>> {
  const asked = parseInput(askedSchema, input);
  if (!asked.ok) return failure({ kind: "not-found" });
  const read = await readAll(viewer, pieceId, asked.value.number);
  if (!read.ok) return read;
  const edition = read.value;
  const bytes = await printLately(keyOf(edition, asked.value), () => print(edition, asked.value));
  return bytes.ok ? success({ ...nameOf(edition, asked.value), bytes: bytes.value }) : bytes;
}

async function readAll(
  viewer: Viewer,
  pieceId: string,
  number: number,
): Promise<Result<Edition, StoreProblem>> {
  const piece = await readPiece(viewer, pieceId);
  if (!piece.ok) return piece;
  const edition = await readEdition(viewer, pieceId, number);
  if (!edition.ok) return edition;
  const source = await readSourceBytes(viewer, pieceId, { hash: edition.value.content.sourceHash });
  if (!source.ok) return source;
  const performances = await listPerformances(viewer, pieceId);
  if (!performances.ok) return performances;
  return success({
    piece: piece.value,
    edition: edition.value,
    source: source.value.bytes,
    performances: performances.value,
  });
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

async function bytesOf(all: Edition, { file, paper }: Asked): Promise<Uint8Array> {
  const { piece, edition, source } = all;
  const { partRoles } = edition.content;
  const cuts = edition.content.cuts.map(toCutSpan);
  const tempo = toTempoSettings(edition.content.tempo);
  const titleBlock = titleBlockOf(piece, edition);
  const common = { sourceMusicXml: source, partRoles, cuts, paper, titleBlock };
  switch (file) {
    case "pianist.pdf":
      return (await printEdition({ ...common, tempo, reader: "pianist" })).pdf;
    case "soloist.pdf":
      return (await printEdition({ ...common, tempo, reader: "soloist" })).pdf;
    case "cut-sheet.pdf":
      return printCutSheet({ ...common, ...sheetOf(all) });
    case "edition.musicxml": {
      const { editionNumber, frozenOn, hash } = titleBlock;
      const text = writeEditionMusicXml({ sourceMusicXml: source, cuts, editionNumber, frozenOn, hash });
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

function titleBlockOf(piece: PieceRecord, edition: EditionRecord): TitleBlock {
  const { title, movement, composer, soloInstrument } = piece;
  return {
    ...{ title, movement, composer, soloInstrument },
    editionNumber: edition.number,
    frozenOn: dateOf(edition.frozenAt),
    hash: edition.hash,
    players: edition.approvals.map(({ name, role, at }) => ({
      name,
      role: role === "pianist" ? "piano" : (soloInstrument ?? "solo"),
      agreedOn: dateOf(at),
    })),
  };
}

function nameOf({ piece }: Edition, { number, file }: Asked): Pick<EditionFile, "name" | "type"> {
  const type = file.endsWith(".pdf") ? "application/pdf" : "application/vnd.recordare.musicxml+xml";
  const title = piece.title.replace(/[\\/:*?"<>|]/g, " ").trim();
  return { name: `${title}, no. ${number}, ${file.replace("edition.", "score.")}`, type };
}

const dateOf = (date: Date) => date.toISOString().slice(0, 10);
const today = () => dateOf(new Date());
