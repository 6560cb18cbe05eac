import { expect, test } from "vitest";
import { ApprovalRace, edits } from "@/test/builders/approval-races";
import { openStoreForFile } from "./duo";

openStoreForFile();

const pieces = 5;
const pairsOfAPiece = 40;

test(`a yes against a change, ${pieces * pairsOfAPiece} times, breaths of the room among them: nothing unseen is agreed, nothing twice`, {
  timeout: 180_000,
}, async () => {
  const races = await Promise.all(
    Array.from({ length: pieces }, async (_, piece) => {
      const race = await ApprovalRace.begin();
      for (let pair = 0; pair < pairsOfAPiece; pair += 1) {
        const edit = edits[(piece + pair) % edits.length] ?? "breath";
        await race.run(edit, { isBoth: pair % 3 === 0, headStart: (pair % 5) - 1 });
      }
      return { outcomes: race.outcomes, faults: await race.findFaults() };
    }),
  );
  for (const { faults } of races)
    expect(faults).toEqual({ unseen: 0, doubles: 0, other: 0, brokenChains: 0 });
  const total = (name: "frozenFirst" | "changedFirst" | "changedBetween" | "pairs") =>
    races.reduce((sum, { outcomes }) => sum + outcomes[name], 0);
  expect(total("frozenFirst") + total("changedFirst") + total("changedBetween")).toBe(total("pairs"));
  console.log(
    `frozen first ${total("frozenFirst")}, changed first ${total("changedFirst")}, changed between ${total("changedBetween")}`,
  );
});
