import { randomUUID } from "node:crypto";
import { afterAll, beforeAll } from "vitest";
import type { RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Result } from "@/lib/score/result";
import { closeDatabase, database } from "@/lib/store/database";
import { createPiece } from "@/lib/store/pieces/create-piece";
import { readPiece } from "@/lib/store/pieces/read-piece";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import type { RewriteSharing } from "@/lib/store/rewrites/rewrite-record";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import type { MemberRole } from "@/lib/store/who-may";
import { buildRewrite } from "@/test/builders/build-rewrite";
import { createFreshDatabase } from "@/test/setup/fresh-database";
import { type DuoSource, duoSource } from "./duo-source";

/** Gives a test file a database of its own, from before its first test until after its last. */
export function openStoreForFile(): void {
  let store: Awaited<ReturnType<typeof openStore>> | null = null;
  beforeAll(async () => {
    store = await openStore();
  });
  afterAll(() => store?.close());
}

/** Opens a database of its own, to be closed. */
export async function openStore(): Promise<{ close(): Promise<void> }> {
  const fresh = await createFreshDatabase();
  process.env.DATABASE_URL = fresh.url;
  return {
    close: async () => {
      await closeDatabase();
      await fresh.drop();
    },
  };
}

export interface Person extends Viewer {
  readonly name: string;
}

export async function bringPerson(name: string): Promise<Person> {
  const email = `${randomUUID()}@colla.test`;
  const { id } = await database().user.create({ data: { email, name, passwordHash: "none" } });
  return { userId: id, name };
}

/** A piece with a pianist, a soloist, a coach and a reader, and somebody who does not belong to it. */
export interface Duo {
  readonly pieceId: string;
  readonly sourceHash: string;
  readonly pianist: Person;
  readonly soloist: Person;
  readonly coach: Person;
  readonly reader: Person;
  readonly stranger: Person;
}

export async function bringDuo(source: DuoSource = {}): Promise<Duo> {
  const [pianist, soloist, coach, reader, stranger] = await Promise.all([
    bringPerson("Ilse Brandow"),
    bringPerson("Corin Vasey"),
    bringPerson("Petra Lund"),
    bringPerson("Oswin Hale"),
    bringPerson("Rafe Tolland"),
  ]);
  const file = { fileName: "concertino.musicxml", bytes: duoSource(source) };
  const { pieceId } = valued(await createPiece(pianist, { role: "pianist" }, file));
  await join(pieceId, soloist, "soloist");
  await join(pieceId, coach, "coach");
  await join(pieceId, reader, "reader");
  const piece = valued(await readPiece(pianist, pieceId));
  return { pieceId, sourceHash: piece.source.hash, pianist, soloist, coach, reader, stranger };
}

async function join(pieceId: string, { userId }: Viewer, role: MemberRole): Promise<void> {
  await database().member.create({ data: { pieceId, userId, role } });
}

/** A cut from the start of one bar to the start of another, by index. */
export function cutOf({ sourceHash }: Duo, from: number, to: number, reason = "") {
  return {
    sourceHash,
    from: { barIndex: from, offset: "0" },
    to: { barIndex: to, offset: "0" },
    reason,
  };
}

/** A rest that the soloist needs, from the start of one bar to the start of another, by index. */
export function restOf({ sourceHash }: Duo, from: number, to: number, seconds = 8, why = "lip") {
  const place = (barIndex: number) => ({ barIndex, offset: "0" });
  return { sourceHash, from: place(from), to: place(to), needs: { seconds }, why };
}

/** What the pianist might play instead in some bars of a duo's source, by index, for their own eyes. */
export function rewriteOf(
  { sourceHash }: Pick<Duo, "sourceHash">,
  from: number,
  to = from,
  step: RewritePitch["step"] = "E",
): { terms: RewriteTerms; sharing: RewriteSharing; replaces: string | null; reason: string } {
  const terms = buildRewrite(sourceHash, from, to, step);
  return { terms, sharing: "only_me", replaces: null, reason: "" };
}

/** What a pianist practised in the first bars of a duo's source. */
export function practiceOf({ sourceHash }: Pick<Duo, "sourceHash">) {
  return {
    ...{ entryId: randomUUID(), at: "2026-03-01T10:00:00.000Z", fromBar: 0, toBar: 3, sourceHash },
    ...{ tempo: { beat: "1", perMinute: 96, held: true }, note: "the left hand alone first" },
  };
}

/** An open cut of the pianist's. */
export async function proposed(duo: Duo, from: number, to: number): Promise<ProposalRecord> {
  return valued(await proposeCut(duo.pianist, duo.pieceId, cutOf(duo, from, to)));
}

/** The value of a result that has to be one. */
export function valued<T>(result: Result<T, StoreProblem>): T {
  if (result.ok) return result.value;
  throw new Error(`expected a value, but: ${JSON.stringify(result.problem)}`);
}

/** The kind of the problem that a result has to be. */
export function kindOf<T>(result: Result<T, StoreProblem>): StoreProblem["kind"] | "done" {
  return result.ok ? "done" : result.problem.kind;
}
