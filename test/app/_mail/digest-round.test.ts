import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { DigestRounds } from "@/app/_mail/digest-round";
import type { MailLine } from "@/app/_mail/mail-log";
import { openPost } from "@/app/_mail/mail-post";
import { startDigests } from "@/app/_mail/start-digests";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { holdRound } from "@/lib/store/digest/hold-round";
import { bringQuietDesk, minute, type QuietDesk } from "@/test/lib/store/digest/quiet-desk";
import { openStoreForFile } from "@/test/lib/store/duo";
import { settings as base } from "./digests";
import { readMail } from "./mail-reader";
import { type SmallSmtpServer, startSmallSmtpServer } from "./small-smtp-server";

const said = "Shall we leave out the second beat?";
openStoreForFile();
let server: SmallSmtpServer;
let desk: QuietDesk;
let log: MailLine[];
beforeEach(async () => {
  await database().user.updateMany({ data: { wantsDigest: false } });
  server = await startSmallSmtpServer();
  desk = await bringQuietDesk();
  await database().user.update({ where: { id: desk.coach.userId }, data: { wantsDigest: false } });
  await desk.comment(0, "pianist", said);
  log = [];
});
afterEach(() => server.close());

function settings() {
  const smtp = { host: "127.0.0.1", port: server.port, isSecure: false, account: null };
  return { ...base, post: { kind: "smtp" as const, server: smtp } };
}

function openRounds(): DigestRounds {
  return new DigestRounds({
    settings: settings(),
    post: openPost(settings()),
    log: (line) => log.push(line),
  });
}

/** Starts the minutes as a server does, and does each of them at a time of our own. */
function startMinutes() {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
  let onLine = (_line: MailLine) => {};
  const digests = startDigests(settings(), (line) => {
    log.push(line);
    onLine(line);
  });
  const pass = (minutes: number) => runAt(minute(minutes), async () => void vi.advanceTimersByTime(60_000));
  const logged = async (minutes: number) => {
    const line = new Promise<MailLine>((resolve) => {
      onLine = resolve;
    });
    await pass(minutes);
    return line;
  };
  return { digests, pass, logged };
}
afterEach(() => {
  vi.useRealTimers();
});

const subjects = () => server.received.map(({ bytes }) => readMail(bytes).headers.get("subject")?.[0]);
const marks = () => database().digest.count({ where: { userId: desk.soloist.userId } });

test("sends what is due, once", async () => {
  const rounds = openRounds();
  const sent = [];
  for (const minutes of [5, 10, 11, 12]) sent.push(await rounds.run(minute(minutes)));
  expect(sent).toEqual([0, 1, 0, 0]);
  expect(subjects()).toEqual(["Concertino: 1 new comment"]);
  expect(await marks()).toBe(1);
});

test("a server that starts anew does not send again what was marked", async () => {
  await openRounds().run(minute(10));
  expect(await openRounds().run(minute(11))).toBe(0);
  expect(server.received).toHaveLength(1);
});

test("servers that race for the same round send once", async () => {
  const nodes = Array.from({ length: 4 }, openRounds);
  await Promise.all(nodes.map((rounds) => holdRound(() => rounds.run(minute(10)))));
  expect(server.received).toHaveLength(1);
  // The same without the lock, which only saves work.
  await desk.comment(300, "pianist", "And now?");
  await Promise.all(nodes.map((rounds) => rounds.run(minute(400))));
  expect(server.received).toHaveLength(2);
});

test("what is refused is tried again, ever later, and written down without what it says", async () => {
  const rounds = openRounds();
  server.refusal = { at: "RCPT", reply: `550 no ${said}` };
  const tried = [];
  for (let minutes = 10; minutes < 30; minutes += 1) {
    const before = log.length;
    await rounds.run(minute(minutes));
    if (log.length > before) tried.push(minutes);
  }
  expect(tried).toEqual([10, 11, 13, 17, 25]);
  expect(await marks()).toBe(0);
  expect(log[0]).toEqual({
    what: "message not sent",
    userId: desk.soloist.userId,
    detail: "Error EENVELOPE 550; again in 60 s",
  });
  const { email } = await database().user.findUniqueOrThrow({ where: { id: desk.soloist.userId } });
  for (const secret of [said, email, desk.soloist.name, desk.pianist.name, "Concertino"])
    expect(JSON.stringify(log)).not.toContain(secret);
  server.refusal = null;
  await rounds.run(minute(60));
  expect(subjects()).toEqual(["Concertino: 1 new comment"]);
});

test("a message that was handed over but could not be marked goes out once from here, and under one id ever", async () => {
  await database().$executeRaw`
    CREATE FUNCTION refuse() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RAISE EXCEPTION ''no''; END'`;
  await database().$executeRaw`
    CREATE CONSTRAINT TRIGGER refuse AFTER INSERT OR UPDATE ON "Digest"
    DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION refuse()`;
  const rounds = openRounds();
  for (const minutes of [10, 12, 15, 20]) await rounds.run(minute(minutes));
  expect(server.received).toHaveLength(1);
  expect(log.length).toBeGreaterThan(1);
  // Another server, or this one started anew, does not know of it.
  await openRounds().run(minute(30));
  const ids = server.received.map(({ bytes }) => readMail(bytes).headers.get("message-id")?.[0]);
  expect([ids.length, new Set(ids).size]).toEqual([2, 1]);
  await database().$executeRaw`DROP TRIGGER refuse ON "Digest"`;
  await database().$executeRaw`DROP FUNCTION refuse`;
  await rounds.run(minute(60));
  expect([server.received.length, await marks()]).toEqual([2, 1]);
});

test("a way out that fails for everybody is not tried with everybody", async () => {
  for (let index = 0; index < 6; index += 1) {
    const more = await bringQuietDesk(`Piece ${index}`);
    await more.comment(0, "pianist", said);
  }
  server.refusal = { at: "DATA", reply: "451 later" };
  await openRounds().run(minute(10));
  expect(log).toHaveLength(3);
});

test("serves minute by minute until it is stopped", async () => {
  const { digests, pass, logged } = startMinutes();
  expect(await logged(10)).toEqual({ what: "messages sent", detail: "1" });
  expect(server.received).toHaveLength(1);
  await digests.stop();
  await desk.comment(300, "pianist", "And now?");
  await pass(400);
  await digests.stop();
  expect(server.received).toHaveLength(1);
});

test("a round that fails is noted and does not end the server", async () => {
  const { digests, logged } = startMinutes();
  await database().$executeRaw`ALTER TABLE "Digest" RENAME TO "Elsewhere"`;
  expect(await logged(10)).toMatchObject({
    what: "round failed",
    detail: expect.stringMatching(/; again in 60 s$/),
  });
  await database().$executeRaw`ALTER TABLE "Elsewhere" RENAME TO "Digest"`;
  expect(await logged(11)).toEqual({ what: "messages sent", detail: "1" });
  await digests.stop();
  expect(server.received).toHaveLength(1);
});
