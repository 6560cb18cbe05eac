import { z } from "zod";
import { personKeySchema } from "@/lib/archive/archive-fields";
import type { ReadPieceArchive } from "@/lib/archive/read-piece-archive";
import { inspectPiece, listPieceFaults } from "@/lib/inspect/inspect-piece";
import { failure, type Result, success } from "@/lib/score/result";
import { takeTry } from "../auth/rate-limit";
import { database } from "../database";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { isPlayer, type MemberRole } from "../who-may";
import { type Importer, insertPiece } from "./insert-piece";

/** What is in a file that may be brought in, before it is. */
export interface PieceFilePreview {
  readonly title: string;
  readonly movement: string | null;
  readonly composer: string | null;
  /** The piece's own hash. */
  readonly hash: string;
  readonly people: readonly {
    readonly key: string;
    readonly name: string;
    readonly role: MemberRole;
    /** Whether they had left or were removed: then nobody comes in as them. */
    readonly hasLeft: boolean;
  }[];
  readonly counts: {
    readonly sources: number;
    readonly proposals: number;
    readonly comments: number;
    readonly performances: number;
  };
  readonly editions: readonly {
    readonly number: number;
    readonly hash: string;
    readonly frozenAt: string;
    readonly approvedBy: readonly string[];
  }[];
}

/** A file that was looked into: what it holds, or a sentence for everything that is wrong with it. */
export type LookedInto =
  | { readonly isWhole: true; readonly preview: PieceFilePreview }
  | { readonly isWhole: false; readonly faults: readonly string[] };

/** Looks into a piece that was taken along and checks it whole. Nothing is stored. */
export async function lookIntoPieceFile(
  viewer: Viewer,
  bytes: Uint8Array,
): Promise<Result<LookedInto, StoreProblem>> {
  const limit = await takeTry("bringInByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const inspected = inspectPiece(bytes);
  const faults = listPieceFaults(inspected);
  return success(
    inspected.ok && faults.length === 0
      ? { isWhole: true, preview: toPreview(inspected.value.read) }
      : { isWhole: false, faults },
  );
}

function toPreview({ archive, piece }: ReadPieceArchive): PieceFilePreview {
  const { title, movement, composer, hash, people, sources } = piece;
  return {
    ...{ title, movement, composer, hash },
    people: people.map(({ key, name, role, leftAt }) => ({ key, name, role, hasLeft: leftAt !== null })),
    counts: {
      sources: sources.length,
      proposals: archive.proposals.length + archive.rewriteProposals.length,
      ...{ comments: archive.room.comments.length, performances: archive.performances.length },
    },
    editions: archive.editions.map(({ number, hash: edition, frozenAt, approvals }) => ({
      ...{ number, hash: edition, frozenAt, approvedBy: approvals.map(({ name }) => name) },
    })),
  };
}

const askWho = "Say who you are in this piece: one of its two players, or none of them.";

/** `who`: the key of the archived player one is, or the part one plays when one is none of them. */
const importSchema = z.object({
  who: z.union([personKeySchema, z.enum(["new pianist", "new soloist"])], askWho),
});

/** Larger pieces take some seconds. */
const limits = { maxWait: 20_000, timeout: 120_000 };

/**
 * Brings in a piece that was taken along, here or from another server, as a piece of its own. It is checked whole
 * first; nothing is stored when anything in it does not hold.
 *
 * Editions keep their numbers, hashes, moments and approvals. The importer says which of its players they are, or that
 * they are none of them; everybody else stands in it as a name without an account, who has left, so that what they
 * said stays theirs and never becomes that of an account which did not claim it. The real person comes in by an
 * invitation.
 *
 * @returns "invalid-input" with what is wrong with the file, the first three things of it.
 */
export async function importPiece(
  viewer: Viewer,
  input: unknown,
  bytes: Uint8Array,
): Promise<Result<{ readonly pieceId: string }, StoreProblem>> {
  const asked = parseInput(importSchema, input);
  if (!asked.ok) return asked;
  const limit = await takeTry("bringInByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const inspected = inspectPiece(bytes);
  const faults = listPieceFaults(inspected);
  if (!inspected.ok || faults.length > 0) return refuse(sayFaults(faults));
  const { read } = inspected.value;
  const importer = findImporter(asked.value.who, read);
  if (!importer) return refuse(askWho);
  const pieceId = await database().$transaction((tx) => insertPiece(tx, viewer, importer, read), limits);
  return success({ pieceId });
}

const refuse = (sentence: string) => failure<StoreProblem>({ kind: "invalid-input", sentence });

function findImporter(who: string, { piece }: ReadPieceArchive): Importer | null {
  if (who === "new pianist") return { is: null, role: "pianist" };
  if (who === "new soloist") return { is: null, role: "soloist" };
  const person = piece.people.find(({ key }) => key === who);
  // A piece is led by players: whoever brings it in has to be able to invite the others.
  return person && isPlayer(person.role) && person.leftAt === null ? { is: person.key } : null;
}

function sayFaults(faults: readonly string[]): string {
  const more = faults.length - 3;
  const rest = more > 0 ? [`And ${more} more.`] : [];
  return ["This is not a piece as it was taken along.", ...faults.slice(0, 3), ...rest].join(" ");
}
