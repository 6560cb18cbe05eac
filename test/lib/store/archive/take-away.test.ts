import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { importPiece } from "@/lib/store/archive/import-piece";
import { signIn } from "@/lib/store/auth/sign-in";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import type { Viewer } from "@/lib/store/viewer";
import { loadDemo } from "@/seed/load-demo";
import { bringPerson, openStore, valued } from "../duo";

let store: Awaited<ReturnType<typeof openStore>>;
let nerys: Viewer;
let pieceId: string;

beforeAll(async () => {
  store = await openStore();
  const password = "a password for the demo";
  await loadDemo(password);
  nerys = valued(await signIn({ email: "nerys@example.org", password }, "192.0.2.7"));
  pieceId = (await listPieces(nerys))[0]?.id ?? "";
});
afterAll(() => store.close());

describe("the demo", () => {
  test("is the same file when it was brought in and is taken away again", async () => {
    const { bytes } = valued(await exportPiece(nerys, pieceId));
    const another = await bringPerson("Nerys Q.");
    const brought = valued(await importPiece(another, { who: "p1" }, bytes));
    const again = valued(await exportPiece(another, brought.pieceId));
    expect(Buffer.compare(again.bytes, bytes)).toBe(0);
  });
});
