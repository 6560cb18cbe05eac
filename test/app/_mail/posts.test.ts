import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { composeMail } from "@/app/_mail/compose-mail";
import { writeDigest } from "@/app/_mail/digest-message";
import { openFileOutbox } from "@/app/_mail/file-outbox";
import { openSmtpPost } from "@/app/_mail/smtp-post";
import { commentNews, digestPiece, dueDigest, settings } from "./digests";
import { readMail } from "./mail-reader";
import { type Refusal, type SmallSmtpServer, startSmallSmtpServer } from "./small-smtp-server";

const at = new Date("2026-03-14T08:10:00Z");
const mailOf = (key: string, text = ".\n..\nA line") => {
  const digest = dueDigest({ key, pieces: [digestPiece({ news: [commentNews(text)] })] });
  return composeMail(writeDigest(digest, settings), settings.from, at);
};

describe("the folder", () => {
  let folder: string;
  beforeEach(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), "colla-outbox-"));
  });
  afterEach(() => fs.rmSync(folder, { recursive: true }));
  const mode = (file: string) => fs.statSync(file).mode & 0o777;

  test("holds one whole file a message, for its owner only", async () => {
    const outbox = path.join(folder, "deep", "outbox");
    const mail = await mailOf("a");
    await openFileOutbox(outbox).send(mail);
    const [name = "", ...more] = fs.readdirSync(outbox);
    expect(more).toEqual([]);
    expect(name).toMatch(/^[0-9a-f]{32}\.eml$/);
    expect([mode(outbox), mode(path.join(outbox, name))]).toEqual([0o700, 0o600]);
    const kept = fs.readFileSync(path.join(outbox, name));
    expect(kept.equals(mail.bytes)).toBe(true);
    expect(readMail(kept).headers.get("message-id")).toEqual(["<a@colla.test>"]);
  });

  test("keeps a message that comes again as the same file, and another beside it", async () => {
    const outbox = openFileOutbox(folder);
    const mails = await Promise.all([mailOf("a"), mailOf("a"), mailOf("../../b")]);
    await Promise.all(mails.map((mail) => outbox.send(mail)));
    expect(fs.readdirSync(folder)).toHaveLength(2);
  });

  test("leaves nothing behind when it cannot be written", async () => {
    const file = path.join(folder, "a-file");
    fs.writeFileSync(file, "");
    await expect(openFileOutbox(file).send(await mailOf("a"))).rejects.toThrow();
    expect(fs.readdirSync(folder)).toEqual(["a-file"]);
  });
});

describe("a mail server", () => {
  let server: SmallSmtpServer;
  beforeEach(async () => {
    server = await startSmallSmtpServer();
  });
  afterEach(() => server.close());
  const open = (port = server.port) =>
    openSmtpPost({ host: "127.0.0.1", port, isSecure: false, account: null });

  test("gets the message byte by byte, for one reader", async () => {
    const mail = await mailOf("a");
    await open().send(mail);
    expect(server.received).toEqual([
      { from: "post@colla.test", to: ["corin@colla.test"], bytes: mail.bytes },
    ]);
  });

  test.each<[string, Refusal]>([
    ["the reader", { at: "RCPT", reply: "550 5.1.1 <corin@colla.test>: nobody here" }],
    ["before the message", { at: "DATA", reply: "451 4.3.0 later" }],
    ["the message", { at: "end of data", reply: "554 5.7.1 not this" }],
  ])("that refuses %s has not taken it", async (_name, refusal) => {
    server.refusal = refusal;
    await expect(open().send(await mailOf("a"))).rejects.toMatchObject({
      responseCode: Number(refusal.reply.slice(0, 3)),
    });
    expect(server.received).toEqual([]);
  });

  test("that is not there has not taken it", async () => {
    const { port } = server;
    await server.close();
    await expect(open(port).send(await mailOf("a"))).rejects.toMatchObject({ code: "ESOCKET" });
    server = await startSmallSmtpServer();
  });

  test("gets nothing for addresses that are nobody's", async () => {
    const mail = await mailOf("a");
    for (const to of ["nerys@example.org", "nerys@desk.example", "nerys@mail.example.com"])
      await open().send({ ...mail, envelope: { ...mail.envelope, to } });
    await open().send({ ...mail, envelope: { ...mail.envelope, to: "nerys@counterexample.org" } });
    expect(server.received.map(({ to }) => to)).toEqual([["nerys@counterexample.org"]]);
  });

  test("elsewhere gets no password over an open line", async () => {
    // The name means this machine, but is not known to.
    const account = { user: "colla", password: "a secret" };
    const post = openSmtpPost({ host: "0.0.0.0", port: server.port, isSecure: false, account });
    await expect(post.send(await mailOf("a"))).rejects.toMatchObject({ code: "ETLS" });
    expect(server.heard).toEqual(["EHLO", "STAR"]);
  });
});
