import { randomBytes } from "node:crypto";
import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { takeTry } from "../auth/rate-limit";
import { hashToken } from "../auth/session";
import { now } from "../clock";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { titleSchema } from "../pieces/create-piece";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { chooseExpiry, suggestLastDay } from "./choose-expiry";
import { findNextPerformance } from "./find-next-performance";

const makeSchema = z.object({
  editionNumber: z.int().min(1),
  forWhom: titleSchema.pipe(z.string().min(1, "Say whom the link is for.")),
  /** Left out: a week after the next performance, or 30 days. */
  lasting: z
    .union([z.enum(["1 day", "1 week"]), z.iso.date()], "A date is written as year, month and day.")
    .optional(),
});

type Asked = z.infer<typeof makeSchema>;

/** Links of one piece that work at the same time. From judgement: far above what a piece's readers are. */
const mostLinks = 50;

export interface NewReaderLink {
  readonly id: string;
  /** For the link `/read/<token>`; shown once, only its hash is stored. */
  readonly token: string;
  readonly forWhom: string;
  readonly editionNumber: number;
  readonly expiresAt: Date;
}

/** Makes a link by which somebody without an account can read one edition until it ends or is taken back. */
export async function makeReaderLink(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<NewReaderLink, StoreProblem>> {
  const asked = parseInput(makeSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "invite");
  if (!membership.ok) return membership;
  const limit = await takeTry("readerLinkByPerson", viewer.userId);
  if (!limit.ok) return limit;
  return inPiece(viewer, pieceId, "invite", (work) => make(work, asked.value));
}

async function make(
  work: PieceChangeWork,
  { editionNumber, forWhom, lasting }: Asked,
): Promise<Result<NewReaderLink, StoreProblem>> {
  const { pieceId, userId } = work.membership;
  const where = { pieceId_number: { pieceId, number: editionNumber } };
  const edition = await work.tx.edition.findUnique({ where, select: { id: true } });
  if (!edition) return refuse("invalid-input", `There is no edition № ${editionNumber} of this piece.`);
  const createdAt = now();
  const working = { pieceId, revokedAt: null, expiresAt: { gt: createdAt } };
  if ((await work.tx.readerLink.count({ where: working })) >= mostLinks)
    return refuse("conflict", `${mostLinks} links to this piece work already. Take one back first.`);
  const expiry = chooseExpiry(
    createdAt,
    lasting ?? suggestLastDay(createdAt, await findNextPerformance(pieceId, work.tx)),
  );
  if (!expiry.ok) return expiry;
  const token = randomBytes(32).toString("base64url");
  const expiresAt = expiry.value;
  const { id } = await work.tx.readerLink.create({
    data: {
      ...{ pieceId, editionId: edition.id, forWhom, createdAt, expiresAt },
      tokenHash: hashToken(token),
      madeById: userId,
    },
  });
  const about = { readerLinkId: id, editionNumber, forWhom };
  await noteChange(work, { what: "reader link made", about, change: "editions" });
  return success({ id, token, forWhom, editionNumber, expiresAt });
}

const refuse = (kind: "invalid-input" | "conflict", sentence: string): Result<never, StoreProblem> =>
  failure({ kind, sentence });
