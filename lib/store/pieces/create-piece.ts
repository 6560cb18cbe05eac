import { createHash } from "node:crypto";
import { z } from "zod";
import type { Prisma } from "@/generated/prisma/client";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import { findSoloPart } from "@/lib/score/find-part";
import type { Notice } from "@/lib/score/notice";
import type { PartRole } from "@/lib/score/part";
import { failure, type Result, success } from "@/lib/score/result";
import type { ReadScore, Score } from "@/lib/score/score";
import { takeTry } from "../auth/rate-limit";
import { cleanLine } from "../clean-text";
import { now } from "../clock";
import { database } from "../database";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { toJson } from "./score-of-source";
import { largestSourceBytes } from "./source-limits";

const titleTooLong = "A title has at most 200 letters here.";

/** A line of a title page: one line, no control characters. */
export const titleSchema = z
  .string()
  .max(1000, titleTooLong)
  .transform(cleanLine)
  .pipe(z.string().max(200, titleTooLong));

/** What a person says about a piece they bring; empty: as the file has it. */
export const newPieceSchema = z.object({
  title: titleSchema.optional(),
  instrument: titleSchema.optional(),
  role: z.enum(["pianist", "soloist"], "Say whether you play the piano or the solo."),
});

export interface UploadedFile {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

export interface CreatedPiece {
  readonly pieceId: string;
  readonly notices: readonly Notice[];
}

/**
 * Makes a piece from an uploaded file, with the viewer as one of its players. The bytes are kept as they came;
 * piece, source and membership are stored together or not at all.
 */
export async function createPiece(
  viewer: Viewer,
  input: unknown,
  file: UploadedFile,
): Promise<Result<CreatedPiece, StoreProblem>> {
  const limit = await takeTry("uploadByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const about = parseInput(newPieceSchema, input);
  if (!about.ok) return about;
  const read = readUpload(file);
  if (!read.ok) return read;
  const { score, notices } = read.value;
  const piece = await database().piece.create({
    data: {
      title: about.value.title || titleOf(score, file.fileName),
      movement: lineOf(score.movement),
      composer: lineOf(score.composer),
      soloInstrument: about.value.instrument || lineOf(findSoloPart(score)?.name ?? null),
      tempo: printedTempo,
      createdAt: now(),
      changedAt: now(),
      members: { create: { userId: viewer.userId, role: about.value.role, joinedAt: now() } },
      sources: { create: newSource("reduction", file, score, viewer) },
      auditEntries: {
        create: {
          userId: viewer.userId,
          what: "piece brought",
          about: { role: about.value.role },
          at: now(),
        },
      },
    },
  });
  return success({ pieceId: piece.id, notices });
}

/** An uploaded file as a score, within the limits. */
export function readUpload(file: UploadedFile): Result<ReadScore, StoreProblem> {
  if (file.bytes.byteLength > largestSourceBytes)
    return failure({ kind: "too-large", limitBytes: largestSourceBytes });
  const read = readScore(file.bytes);
  return read.ok ? read : failure({ kind: "unreadable-source", sentence: sayReadProblem(read.problem) });
}

/** A source with its bytes, to be created within something else. */
export function newSource(
  kind: "reduction" | "full_score",
  file: UploadedFile,
  score: Score,
  viewer: Viewer,
): Prisma.SourceCreateWithoutPieceInput {
  return {
    kind,
    fileName: fileNameOf(file.fileName),
    hash: createHash("sha256").update(file.bytes).digest("hex"),
    byteLength: file.bytes.byteLength,
    partRoles: toJson(
      Object.fromEntries(score.parts.map((part) => [part.id, part.role] as [string, PartRole])),
    ),
    uploadedBy: { connect: { id: viewer.userId } },
    createdAt: now(),
    bytes: { create: { bytes: Buffer.from(file.bytes) } },
  };
}

function titleOf(score: Score, fileName: string): string {
  const fromFile = fileNameOf(fileName).replace(/\.[^.]*$/, "");
  return lineOf(score.title) ?? lineOf(score.movement) ?? (fromFile || "Untitled");
}

function lineOf(text: string | null): string | null {
  return text === null ? null : titleSchema.safeParse(text.slice(0, 200)).data || null;
}

/** The last part of a path, without control characters: it is shown and offered as a download, never opened. */
function fileNameOf(name: string): string {
  return cleanLine(name.split(/[/\\]/).at(-1) ?? "").slice(-200) || "score.musicxml";
}
