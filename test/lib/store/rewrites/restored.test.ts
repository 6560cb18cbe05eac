import { beforeEach, describe, expect, test } from "vitest";
import { readEdition } from "@/lib/store/editions/read-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { restoreEdition } from "@/lib/store/editions/restore-edition";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import { takeOffRewrite } from "@/lib/store/rewrites/take-off-rewrite";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, proposed, valued } from "../duo";
import { agreed, frozen, kept, seenBy, standing, yesTo } from "./duo-rewrites";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const working = async () => valued(await readWorkingEdition(duo.pianist, duo.pieceId));
const restore = async (person: Person) =>
  restoreEdition(person, duo.pieceId, { editionNumber: 1, workingHash: (await working()).hash });

/** № 1 has rewrites 1 (told), 2 (agreed) and 3 (told); now 1 is another one, 2 and 3 are taken off, 4 is new. */
async function moveOn(): Promise<void> {
  const first = await kept(duo, "told", 2);
  const second = await agreed(duo, 5, { to: 6 });
  const third = await kept(duo, "told", 9);
  await frozen(duo);
  await kept(duo, "told", 2, { step: "G", replaces: first.id });
  for (const { id } of [second, third])
    valued(await takeOffRewrite(duo.pianist, duo.pieceId, { rewriteId: id }));
  await kept(duo, "told", 12);
}

describe("bringing an old edition back", () => {
  test("takes off what it lacks; what was told is told again, what was agreed is asked again, each under its number", async () => {
    await moveOn();
    const old = valued(await readEdition(duo.pianist, duo.pieceId, 1));
    expect(valued(await restore(duo.pianist))).toEqual({ reopened: 0, proposed: 0, rewrites: 5 });
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 told*", "2 asked", "3 told*", "4 told"]);
    const asked = valued(await listRewrites(duo.soloist, duo.pieceId)).find(({ number }) => number === 2);
    expect(asked?.proposal).toMatchObject({ state: "open", reason: "as № 1 has it" });
    if (!asked) throw new Error("nothing is asked");
    valued(await yesTo(duo, asked));
    expect((await working()).hash).toBe(old.hash);
    expect(kindOf(await restore(duo.pianist))).toBe("conflict");
  });

  test("by the soloist leaves the pianist's rewrites as they are", async () => {
    await moveOn();
    const before = await standing(duo);
    expect(kindOf(await restore(duo.soloist))).toBe("conflict");
    const cut = await proposed(duo, 14, 16);
    const yes = { proposalId: cut.id, answer: "agree", termsHash: cut.termsHash };
    valued(await answerProposal(duo.soloist, duo.pieceId, yes));
    expect(valued(await restore(duo.soloist))).toEqual({ reopened: 1, proposed: 0, rewrites: 0 });
    expect(await standing(duo)).toEqual(before);
  });
});
