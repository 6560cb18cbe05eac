import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { signIn } from "@/lib/store/auth/sign-in";
import { database as client } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { branchPiece } from "@/lib/store/pieces/branch-piece";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import type { Viewer } from "@/lib/store/viewer";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";
import { valued } from "../lib/store/duo";
import { inDatabase } from "./in-database";
import { loadDemoInto } from "./load-demo-into";
import { Person } from "./person";

const executable = await findBrowser();
if (!executable) console.warn(missingBrowser);

const password = "for this test only";

describe.skipIf(!executable)("two versions of a piece that cut the same bars otherwise", () => {
  let database: FreshDatabase;
  let product: RunningProduct;
  let browser: Browser;
  let nerys: Person;
  let matthis: Person;
  let recital: string;

  beforeAll(async () => {
    database = await createFreshDatabase();
    await loadDemoInto(database.url, password);
    recital = `/pieces/${await inDatabase(database.url, cutOtherwise)}`;
    product = await startProduct({ databaseUrl: database.url });
    browser = await launchBrowser(executable ?? "");
    nerys = await Person.sitDown(browser, product.url);
    matthis = await Person.sitDown(browser, product.url, { width: 390, height: 844 }, { hasTouch: true });
    await nerys.signIn("nerys@example.org", password);
    await matthis.signIn("matthis@example.org", password);
  });

  afterAll(async () => {
    await browser?.close();
    await product?.stop();
    await database?.drop();
  });

  /** What stands in the recital, as it is stored. */
  const statesOf = () =>
    inDatabase(database.url, async () => {
      const rows = await client().proposal.findMany({
        where: { pieceId: recital.split("/").at(-1) ?? "" },
        orderBy: [{ number: "asc" }, { createdAt: "asc" }],
      });
      return rows.map(({ number, state }) => `${number} ${state}`);
    });

  const lacks = () => nerys.page.getByRole("region", { name: "What Jury has that this one lacks" });
  const candidate = (name: string) =>
    lacks().getByRole("list", { name: "What could be" }).getByRole("listitem").filter({ hasText: name });

  test("the screen says which bars both want, and what each way out costs", async () => {
    await nerys.go(`${recital}/editions`);
    await nerys.sees(lacks().getByText(/№ 2 of Jury, against № 1 of Jury, which both began with/));
    await nerys.sees(lacks().getByText(/bars 21–24/));
    await nerys.sees(lacks().getByText("It has bars of cut 2 (bars 23–26) here."));
    // Nothing can simply be had: what stands, the other, or both together.
    await nerys.sees(candidate("This one").getByText(/bars 23–26 cut, \d+:\d\d/));
    await nerys.sees(candidate("This one").getByText("stands", { exact: true }));
    expect(await candidate("This one").getByRole("button").count()).toBe(0);
    await nerys.sees(candidate("The other").getByText(/bars 21–24 cut, \d+:\d\d/));
    await nerys.sees(candidate("Both together").getByText(/bars 21–26 cut, \d+:\d\d/));
    for (const name of ["This one", "The other", "Both together"])
      await nerys.sees(candidate(name).getByText(/Join (clean|needs a touch|rough)/i));
    const secondsOf = async (name: string) => {
      const [, minutes = "", seconds = ""] =
        /, (\d+):(\d\d)/.exec((await candidate(name).textContent()) ?? "") ?? [];
      return Number(minutes) * 60 + Number(seconds);
    };
    expect(await secondsOf("Both together")).toBeLessThan(await secondsOf("The other"));
    expect(await statesOf()).toEqual(["1 agreed", "2 agreed"]);
  });

  test("whoever chooses asks for it in the place of what stands, and nothing gives way before both agree", async () => {
    await candidate("Both together").getByRole("button", { name: "Propose here" }).click();
    // A counter-proposal keeps the number of what it would replace.
    await expect.poll(statesOf, { timeout: 60_000 }).toEqual(["1 agreed", "2 agreed", "2 open"]);
    await matthis.go(recital);
    await matthis.page.getByRole("button", { name: /^Cuts/ }).click();
    await matthis.cut(2, "21–26").getByRole("button", { name: "Agree" }).click();
    await expect.poll(statesOf, { timeout: 60_000 }).toEqual(["1 agreed", "2 superseded", "2 agreed"]);
  });

  test("what was chosen is told, also after the server was killed", async () => {
    const { port } = product;
    await product.kill("SIGKILL");
    product = await startProduct({ databaseUrl: database.url, port });
    await nerys.go(`${recital}/editions`);
    await nerys.sees(lacks().getByText("It has bars of cut 2 (bars 21–26) here."));
    await nerys.sees(candidate("This one").getByText(/bars 21–26 cut/));
    expect(await lacks().getByRole("list", { name: "What could be" }).count()).toBe(1);
  });
});

/** In the jury's version bars 21 to 24 are cut, in the recital's 23 to 26; the first is frozen. Gives the recital's id. */
async function cutOtherwise(): Promise<string> {
  const sitDown = async (name: string) =>
    valued(await signIn({ email: `${name}@example.org`, password }, "192.0.2.7"));
  const players = { pianist: await sitDown("nerys"), soloist: await sitDown("matthis") };
  const jury = (await listPieces(players.pianist))[0]?.id ?? "";
  const occasions = { name: "Recital", thisName: "Jury", editionNumber: 1, limitSeconds: 900 };
  const branch = valued(await branchPiece(players.pianist, jury, occasions)).pieceId;
  for (const { id, termsHash, state } of valued(await listProposals(players.soloist, branch)))
    if (state === "open") await agreeTo(players.soloist, branch, { id, termsHash });
  for (const { id, termsHash, state, proposedBy } of valued(await listProposals(players.soloist, jury))) {
    if (state !== "open") continue;
    const answerer = proposedBy === players.pianist.userId ? players.soloist : players.pianist;
    const no = { proposalId: id, answer: "decline", termsHash, reason: "not now" };
    valued(await answerProposal(answerer, jury, no));
  }
  await cutBars(players, jury, 21, 25);
  await cutBars(players, branch, 23, 27);
  const { hash } = valued(await readWorkingEdition(players.pianist, jury));
  for (const player of Object.values(players)) valued(await approveEdition(player, jury, { hash }));
  return branch;
}

async function cutBars(
  { pianist, soloist }: { readonly pianist: Viewer; readonly soloist: Viewer },
  pieceId: string,
  from: number,
  to: number,
): Promise<void> {
  const { source } = valued(await readPiece(pianist, pieceId));
  // The upbeat is bar 0, so that printed number and index are the same.
  const at = (barIndex: number) => ({ barIndex, offset: "0" });
  const terms = { sourceHash: source.hash, from: at(from), to: at(to), reason: "for this occasion" };
  await agreeTo(soloist, pieceId, valued(await proposeCut(pianist, pieceId, terms)));
}

async function agreeTo(
  viewer: Viewer,
  pieceId: string,
  { id, termsHash }: { readonly id: string; readonly termsHash: string },
): Promise<void> {
  valued(await answerProposal(viewer, pieceId, { proposalId: id, answer: "agree", termsHash }));
}
