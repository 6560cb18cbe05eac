import { z } from "zod";
import { readingFor } from "@/lib/engrave/pages/reading-plan";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { parseInput } from "../parse-input";
import { type AskedReading, askReading } from "../readings/ask-reading";
import { findEdition } from "../readings/find-edition";
import { coverOf, type ReadingCover } from "../readings/reading-cover";
import type { StoreProblem } from "../store-problem";
import { findReaderLink } from "./find-reader-link";

/**
 * What a reader's link opens: what stands over the pages of one edition. Whoever holds the link is meant by it. That it was
 * opened is noted for the players.
 *
 * @param address network address of the client, for the limit.
 */
export async function openReaderLink(
  token: string,
  address: string,
): Promise<Result<ReadingCover, StoreProblem>> {
  const link = await findReaderLink(token, address);
  if (!link.ok) return link;
  const { id, editionId } = link.value;
  const found = await findEdition({ id: editionId });
  if (!found) return failure({ kind: "not-found" });
  await database().readerLink.update({ where: { id }, data: { openedAt: now() } });
  return success(coverOf(found));
}

const askSchema = z.object({ for: z.enum(readingFor).default("pianist") });

/** The pages of the edition that a link opens. @param input `{ for: "pianist" | "soloist" }`. */
export async function readByLink(
  token: string,
  address: string,
  input: unknown,
): Promise<Result<AskedReading, StoreProblem>> {
  const asked = parseInput(askSchema, input);
  if (!asked.ok) return asked;
  const link = await findReaderLink(token, address);
  if (!link.ok) return link;
  const found = await findEdition({ id: link.value.editionId });
  return found ? askReading(found, asked.value.for) : failure({ kind: "not-found" });
}

/**
 * One picture of the pages that a link opens, as SVG packed with gzip.
 *
 * @returns "not-found" for a picture of anything else of the piece.
 */
export async function readPictureByLink(
  token: string,
  address: string,
  { key, index }: { readonly key: string; readonly index: number },
): Promise<Result<Uint8Array<ArrayBuffer>, StoreProblem>> {
  const link = await findReaderLink(token, address);
  if (!link.ok) return link;
  const { pieceId, editionId } = link.value;
  const row = await database().engravedSystem.findFirst({
    where: {
      ...{ pieceId, key, index },
      engraving: { summary: { path: ["editionId"], equals: editionId } },
    },
    select: { svg: true },
  });
  return row ? success(row.svg) : failure({ kind: "not-found" });
}
