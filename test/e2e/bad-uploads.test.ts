import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createAccount } from "@/lib/store/auth/create-account";
import { startSession } from "@/lib/store/auth/session";
import { goodFile, hostileFiles } from "@/test/lib/musicxml/hostile-files";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { inDatabase } from "./in-database";

/** What each is and why it cannot be read stands with the files; here: how the product answers over HTTP. */
const refused: readonly (readonly [name: string, status: number])[] = [
  ["an image (PNG)", 422],
  ["a web page", 422],
  ["zeros", 422],
  ["more bytes than are taken", 422],
  ["cut off in the declaration", 422],
  ["cut off after the last bar", 422],
  ["NUL bytes", 422],
  ["an entity bomb", 422],
  ["an external entity", 422],
  ["nesting of 100,000", 422],
  ["a zip bomb", 422],
  ["a zip bomb that hides its size", 422],
  ["a path that leads out", 422],
  ["a container cut off", 422],
  ["another root", 422],
  ["a part without bars", 422],
  ["UTF-16 with half a character", 422],
];

let database: FreshDatabase;
let product: RunningProduct;
let cookie: string;

beforeAll(async () => {
  database = await createFreshDatabase();
  product = await startProduct({ databaseUrl: database.url });
  cookie = await inDatabase(database.url, async () => {
    const account = { name: "Ruth Amsel", email: "ruth@example.org", password: "for this test only" };
    const created = await createAccount(account, "127.0.0.1");
    if (!created.ok) throw new Error(created.problem.kind);
    return `next-auth.session-token=${(await startSession(created.value.userId)).token}`;
  });
});

afterAll(async () => {
  await product?.stop();
  await database?.drop();
});

interface Answer {
  readonly status: number;
  readonly body: unknown;
}

async function send(
  path: string,
  body: BodyInit,
  own: Readonly<Record<string, string>> = {},
): Promise<Answer> {
  const headers = { cookie, origin: product.url, ...own };
  const response = await fetch(`${product.url}${path}`, { method: "POST", headers, body });
  return { status: response.status, body: await response.json() };
}

/** To make the next file may take longer than the server keeps a connection open. */
const once = { connection: "close" };

function formOf(bytes: Uint8Array, fields: Readonly<Record<string, string>> = { role: "pianist" }): FormData {
  const form = new FormData();
  form.set("file", new File([bytes.slice()], "piece.musicxml"));
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  return form;
}

/** Rows of every table that a piece could leave something in. */
async function countRows(): Promise<Record<string, number>> {
  const client = new pg.Client({ connectionString: database.url });
  await client.connect();
  try {
    const counts: Record<string, number> = {};
    for (const table of ["Piece", "Member", "Source", "SourceBytes", "Engraving", "AuditEntry"]) {
      const { rows } = await client.query(`SELECT count(*)::int AS count FROM "${table}"`);
      counts[table] = rows[0].count;
    }
    return counts;
  } finally {
    await client.end();
  }
}

const nothing = { Piece: 0, Member: 0, Source: 0, SourceBytes: 0, Engraving: 0, AuditEntry: 0 };
const sentence = { sentence: expect.stringMatching(/^\p{Lu}[^<>{}]{10,}\.$/u) };

describe("a file that cannot be a piece", () => {
  test.each(refused)("%s is refused in words, and nothing of it is kept", async (name, status) => {
    const file = hostileFiles.find((one) => one.name === name);
    if (!file) throw new RangeError(`no such file: ${name}`);
    const bytes = file.bytes();
    for (const path of ["/api/pieces/preview", "/api/pieces"]) {
      expect(await send(path, formOf(bytes), once)).toEqual({
        status,
        body: { kind: "unreadable-source", ...sentence },
      });
    }
    expect(await countRows()).toEqual(nothing);
  });

  test("is refused for its size before it is read", async () => {
    expect(await send("/api/pieces", formOf(new Uint8Array(65 * 1024 * 1024)))).toEqual({
      status: 413,
      body: { kind: "too-large", ...sentence },
    });
    expect(await countRows()).toEqual(nothing);
  });

  test.each<[string, () => Promise<Answer>]>([
    ["no form", () => send("/api/pieces", "{}", { "content-type": "application/json" })],
    [
      "a form without its end",
      () => send("/api/pieces", "--x\r\ncontent-", { "content-type": "multipart/form-data; boundary=x" }),
    ],
    ["a form without a file", () => send("/api/pieces", new FormData())],
    ["an empty file", () => send("/api/pieces", formOf(new Uint8Array(0)))],
    ["a role that nobody has", () => send("/api/pieces", formOf(goodFile, { role: "owner" }))],
    [
      "a title without end",
      () => send("/api/pieces", formOf(goodFile, { role: "pianist", title: "a".repeat(9_000) })),
    ],
  ])("%s is refused in words", async (_name, ask) => {
    expect(await ask()).toEqual({ status: 400, body: { kind: "invalid-input", ...sentence } });
    expect(await countRows()).toEqual(nothing);
  });

  test("leaves the product as it was: a sound one is taken afterwards", async () => {
    expect(await send("/api/pieces", formOf(goodFile))).toMatchObject({ status: 201 });
    expect(await countRows()).toMatchObject({ Piece: 1, Member: 1, Source: 1, SourceBytes: 1 });
  });
});
