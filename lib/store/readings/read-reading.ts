import { z } from "zod";
import { type ReadingFor, readingFor } from "@/lib/engrave/pages/reading-plan";
import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import type { MemberRole } from "../who-may";
import { type AskedReading, askReading } from "./ask-reading";
import { type EditionOfPiece, findEdition } from "./find-edition";
import { coverOf, ownPages, type ReadingCover } from "./reading-cover";

const numberSchema = z.coerce.number().int().min(1).max(100_000);
const askSchema = z.object({ number: numberSchema, for: z.enum(readingFor).default("pianist") });

/** The pages of an edition for a member. @param input `{ number, for: "pianist" | "soloist" }`. */
export async function readReading(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<AskedReading, StoreProblem>> {
  const asked = parseInput(askSchema, input);
  if (!asked.ok) return asked;
  const edition = await findForMember(viewer, pieceId, asked.value.number);
  return edition.ok ? askReading(edition.value.found, asked.value.for) : edition;
}

export interface MembersCover extends ReadingCover {
  /** Whose pages are opened unless others are asked for. */
  readonly mine: ReadingFor;
}

/** What stands over the pages of an edition, for a member. @param number as the address has it. */
export async function readCover(
  viewer: Viewer,
  pieceId: string,
  number: string,
): Promise<Result<MembersCover, StoreProblem>> {
  const asked = numberSchema.safeParse(number);
  if (!asked.success) return failure({ kind: "not-found" });
  const edition = await findForMember(viewer, pieceId, asked.data);
  if (!edition.ok) return edition;
  const { found, role } = edition.value;
  return success({ ...coverOf(found), mine: ownPages(role, found.edition.content) });
}

/** The number of a piece's newest edition; null when nothing was frozen yet. */
export async function readNewestEdition(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<{ number: number | null; for: ReadingFor }, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const newest = await database().edition.aggregate({ where: { pieceId }, _max: { number: true } });
  const mine = membership.value.role === "soloist" ? "soloist" : "pianist";
  return success({ number: newest._max.number, for: mine });
}

async function findForMember(
  viewer: Viewer,
  pieceId: string,
  number: number,
): Promise<Result<{ found: EditionOfPiece; role: MemberRole }, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const found = await findEdition({ pieceId_number: { pieceId, number } });
  return found ? success({ found, role: membership.value.role }) : failure({ kind: "not-found" });
}
