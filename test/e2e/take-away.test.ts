import { readFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readPieceArchive } from "@/lib/archive/read-piece-archive";
import { inspectPiece } from "@/lib/inspect/inspect-piece";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("a piece", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  test("is saved, deleted, brought back by the other, and brought in as a second piece with the same edition", async () => {
    const nerys = await Person.sitDown(browser, product.url);
    const matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
    await nerys.page
      .getByRole("link", { name: /Concertino/ })
      .first()
      .click();
    await nerys.page.waitForURL(/\/pieces\/[\w-]+/);
    const piece = new URL(nerys.page.url()).pathname;
    await matthis.go(piece);

    // The whole piece as a file.
    await nerys.go(`${piece}/settings`);
    const download = nerys.page.waitForEvent("download");
    await nerys.page.getByRole("link", { name: "Save the whole piece" }).click();
    const saved = await (await download).path();
    const bytes = new Uint8Array(await readFile(saved));
    const inspected = inspectPiece(bytes);
    expect(inspected.ok && inspected.value.isWhole).toBe(true);
    const read = readPieceArchive(bytes);
    if (!read.ok) throw new Error("not read");
    const [edition] = read.value.archive.editions;
    const shortHash = edition?.hash.slice(0, 8) ?? "";
    await nerys.go(`${piece}/editions`);
    await nerys.sees(nerys.page.getByText(shortHash));

    // Deleting asks twice, and sends away whoever is there.
    await nerys.go(`${piece}/settings`);
    await nerys.page.getByRole("button", { name: "Delete the piece…" }).click();
    const confirm = nerys.page.getByRole("button", { name: "Delete it" });
    expect(await confirm.isDisabled()).toBe(true);
    await nerys.page.getByLabel(/Write the title/).fill(read.value.archive.piece.title);
    await confirm.click();
    await nerys.page.waitForURL("/");
    await nerys.sees(nerys.page.getByRole("heading", { name: "Deleted pieces" }));
    await matthis.sees(matthis.page.getByText(/Not connected|not let in|no longer|Nothing here for you/));
    expect((await matthis.fetches(`/api${piece}/source`)).status).toBe(404);

    // The other brings it back.
    await matthis.go("/");
    await matthis.sees(matthis.page.getByText(/deleted by Nerys Quill · 30 days left/));
    await matthis.page.getByRole("button", { name: /^Bring back/ }).click();
    await matthis.sees(matthis.page.getByRole("link", { name: /Concertino/ }));
    await matthis.go(piece);
    await matthis.seesNotes();

    // A spoiled copy is refused in words; the right one comes in as a piece of its own.
    await nerys.go("/");
    await nerys.page.getByRole("link", { name: "Bring in a piece that was taken away" }).click();
    const spoiled = bytes.slice();
    spoiled[Math.floor(spoiled.length / 2)]! ^= 1;
    const chooser = nerys.page.locator("input[type=file]");
    const file = (name: string, content: Uint8Array) => ({
      ...{ name, mimeType: "application/zip", buffer: Buffer.from(content) },
    });
    await chooser.setInputFiles(file("spoiled.zip", spoiled));
    await nerys.sees(nerys.page.getByText("It cannot be brought in: it is not as it was packed."));
    await chooser.setInputFiles(file("piece.zip", bytes));
    await nerys.sees(nerys.page.getByText(shortHash));
    await nerys.page.getByText("I am Nerys Quill").click();
    await nerys.page.getByRole("button", { name: "Bring it in" }).click();
    await nerys.page.getByRole("link", { name: "Read the piece" }).click();
    await nerys.seesNotes();
    const second = new URL(nerys.page.url()).pathname;
    expect(second).not.toBe(piece);
    await nerys.go(`${second}/editions`);
    await nerys.sees(nerys.page.getByText(shortHash));
    // Taken away again it is the same file.
    const again = await nerys.fetches(`/api${second}/piece.zip`);
    expect(Buffer.compare(again.bytes, bytes)).toBe(0);
    // He is a name in it and no member.
    expect((await matthis.fetches(`/api${second}/source`)).status).toBe(404);
    await nerys.go(`${second}/settings`);
    await nerys.sees(nerys.page.getByLabel("Invite a"));
    await Promise.all([nerys.leave(), matthis.leave()]);
  });

  test("goes on without somebody who removed their account", async () => {
    const matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 });
    await matthis.signIn("matthis@example.org", password);
    await matthis.go("/account");
    const mine = await matthis.fetches("/api/account/account.zip");
    expect([mine.status, mine.type]).toEqual([200, "application/zip"]);
    await matthis.page.getByRole("button", { name: "Remove the account…" }).click();
    await matthis.page.getByLabel("Your password").fill("not this one");
    await matthis.page.getByRole("button", { name: "Remove my account" }).click();
    await matthis.sees(matthis.page.getByText("This is not your password."));
    await matthis.page.getByLabel("Your password").fill(password);
    await matthis.page.getByRole("button", { name: "Remove my account" }).click();
    await matthis.page.waitForURL("/sign-in");
    await matthis.page.getByLabel("Your e-mail").fill("matthis@example.org");
    await matthis.page.getByLabel("Password").fill(password);
    await matthis.page.getByRole("button", { name: "Sign in", exact: true }).click();
    await matthis.sees(matthis.page.getByText("This e-mail and this password do not belong together."));
    const nerys = await Person.sitDown(browser, product.url);
    await nerys.signIn("nerys@example.org", password);
    await nerys.page
      .getByRole("link", { name: /Concertino/ })
      .first()
      .click();
    await nerys.seesNotes();
    await Promise.all([nerys.leave(), matthis.leave()]);
  });
});
