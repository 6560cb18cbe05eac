import { execFileSync } from "node:child_process";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { composeMail } from "@/app/_mail/compose-mail";
import { writeDigest } from "@/app/_mail/digest-message";
import { sayNews } from "@/app/_mail/say-news";
import { saySubject } from "@/app/_mail/say-subject";
import type { DueDigest } from "@/lib/store/digest/due-digest";
import type { News } from "@/lib/store/digest/news";
import { commentNews, digestPiece, dueDigest, settings, trailNews } from "./digests";
import { readMail } from "./mail-reader";

const sentAt = new Date("2026-03-14T08:10:00Z");
const compose = (digest: DueDigest) => composeMail(writeDigest(digest, settings), settings.from, sentAt);
const about = (...news: News[]) => digestPiece({ news });

describe("the subject", () => {
  test.each<[string, News[]]>([
    ["Concertino: 1 new comment", [commentNews("a")]],
    [
      "Concertino: 2 new comments, 1 answer",
      [commentNews("a"), commentNews("b"), trailNews("cut agreed", 2)],
    ],
    [
      "Concertino: 1 comment that names you, 1 reply, 1 proposal",
      [
        commentNews("a", { namesMe: true }),
        commentNews("b", { kind: "reply" }),
        trailNews("cut proposed", 1),
      ],
    ],
    [
      "Concertino: 1 new edition, 2 changes",
      [trailNews("edition frozen", 4), trailNews("limit set"), trailNews("tempi set")],
    ],
  ])("%s", (subject, news) => {
    expect(saySubject([about(...news)])).toBe(subject);
  });

  test("of several pieces", () => {
    const other = digestPiece({ title: "Nocturne" });
    expect(saySubject([digestPiece(), other])).toBe("Concertino and 1 more piece: 2 new comments");
    expect(saySubject([digestPiece(), other, other])).toBe("Concertino and 2 more pieces: 3 new comments");
  });
});

describe("the lines", () => {
  const upbeat = commentNews("a").span?.from;
  test.each<[string, News]>([
    ["Ilse Brandow on bars 3–5: “More time here?”", commentNews("More time here?")],
    ["Ilse Brandow names you on bars 3–5: “@Corin?”", commentNews("@Corin?", { namesMe: true })],
    ["Ilse Brandow replies on bars 3–5: “Yes.”", commentNews("Yes.", { kind: "reply" })],
    [
      "Ilse Brandow on bar 3: “Here.”",
      commentNews("Here.", { span: upbeat && { from: upbeat, to: upbeat } }),
    ],
    ["Ilse Brandow about a cut: “No.”", commentNews("No.", { span: null })],
    ["Ilse Brandow proposes cut 3.", trailNews("cut proposed", 3)],
    ["Ilse Brandow proposes rewrite 3.", trailNews("rewrite proposed", 3)],
    ["Ilse Brandow plays something else than the print: rewrite 1.", trailNews("rewrite told", 1)],
    ["Ilse Brandow agrees to rewrite 2.", trailNews("rewrite agreed", 2)],
    ["Ilse Brandow gave the second yes: № 4 is frozen.", trailNews("edition frozen", 4)],
    ["Ilse Brandow: something new.", trailNews("something new")],
  ])("%s", (line, news) => {
    expect(sayNews(about(news))).toEqual([line]);
  });

  test("pencil work is counted by person", () => {
    const by = (byId: string, kind: "breath" | "cue" | "resolution" | "pencilled-cut"): News => ({
      kind,
      byId,
      at: sentAt,
    });
    const piece = about(
      by("pianist", "breath"),
      by("coach", "resolution"),
      by("pianist", "pencilled-cut"),
      by("pianist", "resolution"),
      by("pianist", "breath"),
      by("pianist", "cue"),
    );
    expect(sayNews(piece)).toEqual([
      "Ilse Brandow worked on 2 breath marks, a cue and a pencilled cut; settled or reopened a comment.",
      "Petra Lund settled or reopened a comment.",
    ]);
  });

  test("no more than a dozen, and no more than a short excerpt of any comment", () => {
    const long = "Nobody should read all of this in a message. ".repeat(20);
    const lines = sayNews(about(...Array.from({ length: 30 }, () => commentNews(long))));
    expect(lines).toHaveLength(12);
    expect(lines.at(-1)).toBe("And 19 more.");
    expect(lines[0]).toMatch(/^Ilse Brandow on bars 3–5: “Nobody should .{50,80}…”$/u);
  });

  test.each([
    ["https://elsewhere.test/a?b", "[link]"],
    ["See http://elsewhere.test.", "See [link]"],
    ["see WWW.elsewhere.test now", "see [link] now"],
    ["elsewhere.test/free", "[link]"],
    ["javascript://x", "[link]"],
    ["me@elsewhere.test", "[link]"],
    ["poco rit. then a tempo, bars 3/4", "poco rit. then a tempo, bars 3/4"],
  ])("leads nowhere: %s", (text, shown) => {
    expect(sayNews(about(commentNews(text)))).toEqual([`Ilse Brandow on bars 3–5: “${shown}”`]);
  });
});

const hostile = [
  "Evil\r\nBcc: everybody@elsewhere.test",
  "Evil\n\nA body of my own",
  "Evil\u2028Bcc: x@y.test\u0085X: y",
  "<img src=x onerror=alert(1)><script>alert(1)</script>",
  '"quoted" <a@b.test>, c@d.test; group: e@f.test;',
  "\u202egnp.exe \u0000\u001b[31m\u007f",
  "=?utf-8?Q?Evil=0D=0ABcc:_x=40y.test?=",
  "Ünïcödé 𝄞 日本語 ".repeat(40),
  "x".repeat(5000),
  "\ud800 half a character",
  "",
];

describe("hostile names, titles and texts", () => {
  test.each(hostile)("%j", async (text) => {
    const piece = digestPiece({
      title: text,
      people: new Map([["pianist", text]]),
      news: [commentNews(text || "-"), trailNews("cut proposed", 1)],
      barLabels: Array.from({ length: 6 }, () => text),
    });
    await checkMail(dueDigest({ name: text, pieces: [piece] }));
  });

  test("whatever they are", async () => {
    const text = fc.oneof(fc.string(), fc.string({ unit: "binary" }), fc.constantFrom(...hostile));
    await fc.assert(
      fc.asyncProperty(text, text, text, async (name, title, said) => {
        const piece = digestPiece({ title, people: new Map([["pianist", name]]), news: [commentNews(said)] });
        await checkMail(dueDigest({ name, pieces: [piece] }));
      }),
      { numRuns: 200 },
    );
  });
});

/** The only headers a message has, each once. */
const headerNames = [
  "auto-submitted",
  "content-type",
  "date",
  "from",
  "list-unsubscribe",
  "list-unsubscribe-post",
  "message-id",
  "mime-version",
  "subject",
  "to",
];

async function checkMail(digest: DueDigest): Promise<void> {
  const composed = await compose(digest);
  const mail = readMail(composed.bytes);
  expect([...mail.headers.keys()].sort()).toEqual(headerNames);
  for (const values of mail.headers.values()) expect(values).toHaveLength(1);
  expect(composed.envelope).toEqual({ from: "post@colla.test", to: "corin@colla.test" });
  expect(mail.headers.get("to")?.[0]).toMatch(/(^|<)corin@colla\.test>?$/);
  expect([...mail.parts.keys()]).toEqual(["text/plain", "text/html"]);
  const html = mail.parts.get("text/html") ?? "";
  const tags = [...html.matchAll(/<\/?([a-z0-9!]+)([^>]*)>/gi)].map(([, tag, rest]) => `${tag}${rest}`);
  for (const tag of tags) expect(tag).toMatch(inertTag);
  expect(html.replace(/<[^>]*>/g, "")).not.toMatch(/[<>]/);
  for (const text of mail.parts.values()) expect(text.length).toBeLessThan(6000);
  expect(mail.parts.get("text/plain")?.split(/\r?\n/).length).toBeLessThan(40);
}

const inertTag =
  /^(!doctype html|html( lang="en")?|head|meta charset="utf-8"|title|body|h2|p|ul|li|a( href="https:\/\/colla\.test\/[\w./#%-]*")?)$/;

describe("a composed message", () => {
  test("says all of it in plain text and in HTML, and how to end it", async () => {
    const { bytes } = await compose(dueDigest());
    const { headers, parts } = readMail(bytes);
    const header = (name: string) => headers.get(name)?.[0];
    expect(header("from")).toBe("Colla Parte <post@colla.test>");
    expect(header("to")).toBe("Corin Vasey <corin@colla.test>");
    expect(header("subject")).toBe("Concertino: 1 new comment");
    expect(header("date")).toBe("Sat, 14 Mar 2026 08:10:00 +0000");
    expect(header("message-id")).toBe(`<${dueDigest().key}@colla.test>`);
    expect(header("list-unsubscribe")).toMatch(/^<https:\/\/colla\.test\/api\/unsubscribe\/[\w-]+\.[\w-]+>$/);
    expect(header("list-unsubscribe-post")).toBe("List-Unsubscribe=One-Click");
    expect(header("auto-submitted")).toBe("auto-generated");
    expect(parts.get("text/plain")).toContain("- Ilse Brandow on bars 3–5: “More time here?”");
    expect(parts.get("text/plain")).toContain("Open the piece: https://colla.test/pieces/p1");
    expect(parts.get("text/plain")).toMatch(/No more of them: https:\/\/colla\.test\/unsubscribe\/[\w.-]+/);
    expect(parts.get("text/plain")).toContain("Settings: https://colla.test/pieces/p1/settings#news");
    expect(parts.get("text/html")).toContain("<li>Ilse Brandow on bars 3–5: “More time here?”</li>");
  });

  test("the same news make the same message, byte by byte but for its inner boundaries", async () => {
    const [first, again] = await Promise.all([compose(dueDigest()), compose(dueDigest())]);
    const plain = ({ bytes }: { bytes: Buffer }) => bytes.toString().replace(/--_NmP-[\w-]+/g, "--");
    expect(plain(again)).toBe(plain(first));
  });

  test.skipIf(!hasPython())("another program's reader finds the same in it", async () => {
    const { bytes } = await compose(dueDigest({ name: "Łukasz “Wū” Ø\r\nBcc: a@b.test" }));
    const script = `
import email, email.policy, json, sys
m = email.message_from_bytes(sys.stdin.buffer.read(), policy=email.policy.default)
print(json.dumps([sorted(k.lower() for k in m.keys()), m["subject"], [a.addr_spec for a in m["to"].addresses],
  m.get_body(("plain",)).get_content(), m.get_body(("html",)).get_content(),
  [type(d).__name__ for p in m.walk() for d in p.defects]]))`;
    const read = JSON.parse(execFileSync("python3", ["-c", script], { input: bytes, encoding: "utf8" }));
    const { parts, headers } = readMail(bytes);
    const lines = (text?: string) => text?.replaceAll("\r\n", "\n").trimEnd();
    expect(read.slice(0, 3)).toEqual([headerNames, headers.get("subject")?.[0], ["corin@colla.test"]]);
    expect(lines(read[3])).toBe(lines(parts.get("text/plain")));
    expect(lines(read[4])).toBe(lines(parts.get("text/html")));
    expect(read[5]).toEqual([]);
  });
});

function hasPython(): boolean {
  try {
    execFileSync("python3", ["-c", "import email.policy"], { stdio: "ignore" });
    return true;
  } catch {
    console.warn("No python3 here: the messages are read by this project's own reader only.");
    return false;
  }
}
