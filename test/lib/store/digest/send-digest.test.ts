import { beforeEach, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import type { DueDigest } from "@/lib/store/digest/due-digest";
import { findDueDigests } from "@/lib/store/digest/find-due-digests";
import { holdRound } from "@/lib/store/digest/hold-round";
import { sendDigest } from "@/lib/store/digest/send-digest";
import { openStoreForFile } from "../duo";
import { bringQuietDesk, minute, type QuietDesk } from "./quiet-desk";

openStoreForFile();
let desk: QuietDesk;
beforeEach(async () => {
  await database().user.updateMany({ data: { wantsDigest: false } });
  desk = await bringQuietDesk();
  await desk.comment(0, "pianist", "More time here?");
});

async function findForSoloist(minutes: number): Promise<DueDigest | undefined> {
  const onFailure = (error: unknown) => {
    throw error;
  };
  const due = await findDueDigests(minute(minutes), { onFailure });
  return due.find(({ userId }) => userId === desk.soloist.userId);
}

async function dueToSoloist(minutes = 10): Promise<DueDigest> {
  const digest = await findForSoloist(minutes);
  if (!digest) throw new Error("nothing is due");
  return digest;
}

const marks = () => database().digest.findMany({ where: { userId: desk.soloist.userId } });

test("what was handed over is marked, and not due again", async () => {
  expect(await sendDigest(await dueToSoloist(), async () => {})).toBe("sent");
  expect(await marks()).toMatchObject([{ pieceId: desk.pieceId, sequence: 1, at: minute(9) }]);
  expect(await findForSoloist(10 * 60)).toBeUndefined();
});

test("what could not be handed over is not marked, and due again as the same message", async () => {
  const digest = await dueToSoloist();
  const failing = sendDigest(digest, () => Promise.reject(new Error("no way out")));
  await expect(failing).rejects.toThrow("no way out");
  expect(await marks()).toEqual([]);
  expect((await dueToSoloist(25)).key).toBe(digest.key);
});

test("a message that tells of more is another message", async () => {
  const { key } = await dueToSoloist();
  await desk.comment(12, "pianist", "Or less?");
  expect((await dueToSoloist(30)).key).not.toBe(key);
});

test("a database that takes no marks refuses them before anything is handed over", async () => {
  const digest = await dueToSoloist();
  await database().$executeRaw`ALTER TABLE "Digest" ADD CONSTRAINT nothing_more CHECK (false) NOT VALID`;
  let handedOver = 0;
  const sending = sendDigest(digest, async () => {
    handedOver += 1;
  });
  await expect(sending).rejects.toThrow();
  await database().$executeRaw`ALTER TABLE "Digest" DROP CONSTRAINT nothing_more`;
  expect(handedOver).toBe(0);
});

test("several servers that found the same message send it once", async () => {
  const digest = await dueToSoloist();
  let handedOver = 0;
  const outcomes = await Promise.all(
    Array.from({ length: 8 }, () =>
      sendDigest(digest, async () => {
        handedOver += 1;
      }),
    ),
  );
  expect(handedOver).toBe(1);
  expect(outcomes.filter((outcome) => outcome === "sent")).toHaveLength(1);
});

test.each([
  [
    "turned them off",
    () => database().user.update({ where: { id: desk.soloist.userId }, data: { wantsDigest: false } }),
  ],
  [
    "left the piece",
    () =>
      database().member.updateMany({
        where: { userId: desk.soloist.userId },
        data: { removedAt: minute(10) },
      }),
  ],
])("nothing goes to somebody who %s meanwhile", async (_name, change) => {
  const digest = await dueToSoloist();
  await change();
  let handedOver = 0;
  const outcome = await sendDigest(digest, async () => {
    handedOver += 1;
  });
  expect([outcome, handedOver]).toEqual(["overtaken", 0]);
});

test("one server at a time holds the round, and the lock ends with a failure too", async () => {
  let letGo = () => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  let [atIt, refused] = [0, 0];
  const works = Array.from({ length: 5 }, async () => {
    const answer = await holdRound(async () => {
      atIt += 1;
      await held;
      return "held";
    });
    // The one that holds it goes on until all others were refused.
    if (answer === null) refused += 1;
    if (refused === 4) letGo();
    return answer;
  });
  expect((await Promise.all(works)).filter((answer) => answer !== null)).toEqual(["held"]);
  expect(atIt).toBe(1);
  await expect(holdRound(() => Promise.reject(new Error("broken")))).rejects.toThrow("broken");
  expect(await holdRound(async () => "free")).toBe("free");
});
