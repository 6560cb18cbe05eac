import { strFromU8, unzipSync } from "fflate";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { usualHands } from "@/lib/hands/hands-profile";
import { exportAccount } from "@/lib/store/account/export-account";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { findDueDigests } from "@/lib/store/digest/find-due-digests";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { setHands } from "@/lib/store/hands/set-hands";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { listPractice } from "@/lib/store/practice/list-practice";
import { logPractice } from "@/lib/store/practice/log-practice";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { bringBackRewrite } from "@/lib/store/rewrites/bring-back-rewrite";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";
import { shareRewrite } from "@/lib/store/rewrites/share-rewrite";
import { takeOffRewrite } from "@/lib/store/rewrites/take-off-rewrite";
import { noteVisit } from "@/lib/store/room/note-visit";
import { readRoomHistory } from "@/lib/store/room/read-room-history";
import { readSinceLastVisit } from "@/lib/store/room/read-since-last-visit";
import {
  bringDuo,
  bringPerson,
  type Duo,
  kindOf,
  openStore,
  type Person,
  practiceOf,
  rewriteOf,
  valued,
} from "../duo";
import { kept } from "./duo-rewrites";

let store: Awaited<ReturnType<typeof openStore>>;
let duo: Duo;
let secret: RewriteRecord;
const words = "quartzite";
const yesterday = new Date(Date.now() - 24 * 60 * 60 * 1000);
const onFailure = (error: unknown) => {
  throw error;
};
const others = () => [duo.soloist, duo.coach, duo.reader];

beforeAll(async () => {
  store = await openStore();
});
afterAll(() => store.close());
beforeEach(async () => {
  await database().rateWindow.deleteMany();
  duo = await bringDuo();
  await database().member.updateMany({ data: { joinedAt: yesterday } });
  for (const person of others())
    await runAt(yesterday, async () =>
      noteVisit({ pieceId: duo.pieceId, userId: person.userId, sequence: 0 }),
    );
  const mine = rewriteOf(duo, 2);
  secret = valued(
    await keepRewrite(duo.pianist, duo.pieceId, {
      ...{ ...mine, terms: { ...mine.terms, words }, reason: `${words}: my thumb hurts` },
    }),
  );
});

const textOf = (bytes: Uint8Array) =>
  Object.entries(unzipSync(bytes))
    .filter(([name]) => !name.startsWith("schemas/") && name !== "README.txt")
    .map(([, file]) => strFromU8(file))
    .join("\n");

/** Everything that somebody can read of the piece, as text. */
async function allThatIsSeenBy(person: Person): Promise<string> {
  const archive = await exportPiece(person, duo.pieceId);
  const reads = [
    await listRewrites(person, duo.pieceId),
    await listProposals(person, duo.pieceId),
    await listWaiting(person),
    await listPieces(person),
    await readPiece(person, duo.pieceId),
    await readWorkingEdition(person, duo.pieceId),
    await listEditions(person, duo.pieceId),
    await listPractice(person, duo.pieceId),
    await readRoomHistory(person, duo.pieceId),
    await readSinceLastVisit(person, duo.pieceId),
    (await findDueDigests(new Date(Date.now() + 3 * 60 * 60 * 1000), { onFailure })).filter(
      ({ userId }) => userId === person.userId,
    ),
  ];
  const account = valued(await exportAccount(person));
  return [JSON.stringify(reads), textOf(account), archive.ok ? textOf(archive.value.bytes) : ""].join("\n");
}

function expectNothingOf(text: string, rewrite: RewriteRecord): void {
  for (const trace of [words, rewrite.id, rewrite.termsHash, JSON.stringify(rewrite.terms.events[0])])
    expect(text).not.toContain(trace);
}

describe("what the pianist keeps to themselves", () => {
  test("nobody else reads anywhere, and it leaves no trace in the trail", async () => {
    for (const person of others()) expectNothingOf(await allThatIsSeenBy(person), secret);
    // The pianist's own copy of the piece is one that others may get to see.
    expectNothingOf(textOf(valued(await exportPiece(duo.pianist, duo.pieceId)).bytes), secret);
    const trail = await database().auditEntry.findMany({ where: { pieceId: duo.pieceId } });
    expect(trail.filter(({ what }) => what.startsWith("rewrite"))).toEqual([]);
  });

  test("the pianist reads, and takes along with their account", async () => {
    expect(valued(await listRewrites(duo.pianist, duo.pieceId))).toEqual([secret]);
    const text = textOf(valued(await exportAccount(duo.pianist)));
    for (const trace of [`${words}: my thumb hurts`, secret.termsHash]) expect(text).toContain(trace);
  });

  test("is not there for the pianist who comes after them, whatever that one tries", async () => {
    const second = await bringPerson("Tamsin Roe");
    const seat = { pieceId: duo.pieceId, userId: duo.pianist.userId };
    await database().member.updateMany({ where: seat, data: { removedAt: new Date() } });
    await database().member.create({
      data: { pieceId: duo.pieceId, userId: second.userId, role: "pianist" },
    });
    expectNothingOf(await allThatIsSeenBy(second), secret);
    const rewriteId = secret.id;
    const tries = [
      () => shareRewrite(second, duo.pieceId, { rewriteId, sharing: "told" }),
      () => takeOffRewrite(second, duo.pieceId, { rewriteId }),
      () => bringBackRewrite(second, duo.pieceId, { rewriteId }),
      () => keepRewrite(second, duo.pieceId, { ...rewriteOf(duo, 2, 2, "G"), replaces: rewriteId }),
    ];
    for (const attempt of tries) expect(kindOf(await attempt())).toBe("not-found");
    for (const person of others())
      expect(kindOf(await takeOffRewrite(person, duo.pieceId, { rewriteId }))).toBe("not-allowed");
    await database().member.deleteMany({ where: { pieceId: duo.pieceId, userId: second.userId } });
    await database().member.updateMany({ where: seat, data: { removedAt: null } });
    expect(valued(await listRewrites(duo.pianist, duo.pieceId))).toEqual([secret]);
  });

  test("keeps its reason when it is told later with another", async () => {
    valued(
      await shareRewrite(duo.pianist, duo.pieceId, {
        rewriteId: secret.id,
        sharing: "told",
        reason: "lighter",
      }),
    );
    for (const person of others()) expect(await allThatIsSeenBy(person)).not.toContain("my thumb hurts");
    const [seen] = valued(await listRewrites(duo.soloist, duo.pieceId));
    expect(seen?.reason).toBe("lighter");
  });

  test("beside what is told, or made private again, is as hidden", async () => {
    const told = await kept(duo, "told", 6);
    const draft = await keepRewrite(duo.pianist, duo.pieceId, {
      ...{ ...rewriteOf(duo, 6, 6, "B"), replaces: told.id, reason: words },
    });
    for (const person of others()) expectNothingOf(await allThatIsSeenBy(person), valued(draft));
    const back = { rewriteId: told.id, sharing: "only_me" };
    valued(await shareRewrite(duo.pianist, duo.pieceId, back));
    for (const person of others()) {
      const records = valued(await listRewrites(person, duo.pieceId));
      expect(records).toEqual([]);
      expect(await allThatIsSeenBy(person)).not.toContain(JSON.stringify(told.terms.events[0]));
    }
  });
});

test("hands and practice are in nobody else's reading, and in the pianist's account", async () => {
  valued(await setHands(duo.pianist, { profile: { ...usualHands, leaps: 1.3725 } }));
  valued(await logPractice(duo.pianist, duo.pieceId, { ...practiceOf(duo), note: words }));
  for (const person of others()) {
    const text = await allThatIsSeenBy(person);
    for (const trace of [words, "1.3725"]) expect(text).not.toContain(trace);
  }
  const piece = textOf(valued(await exportPiece(duo.pianist, duo.pieceId)).bytes);
  const account = textOf(valued(await exportAccount(duo.pianist)));
  for (const trace of [words, "1.3725"]) {
    expect(piece).not.toContain(trace);
    expect(account).toContain(trace);
  }
});
