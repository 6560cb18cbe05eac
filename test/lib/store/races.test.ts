import { describe, expect, test } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { Result } from "@/lib/score/result";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { counterPropose } from "@/lib/store/proposals/counter-propose";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import { withdrawProposal } from "@/lib/store/proposals/withdraw-proposal";
import { bringDuo, cutOf, type Duo, openStoreForFile, proposed, valued } from "./duo";

// Every race runs on connections of its own against a real server. Which one wins is the machine's affair.

openStoreForFile();

const pairs = 200;
const cutsInEach = 20;
/** Races under way at once; each takes two connections. */
const atOnce = 10;

/** Pieces of 2 bars a cut, and an open one-bar cut of the pianist's in each pair of bars. */
async function bringProposals(
  count: number,
): Promise<{ duo: Duo; proposal: ProposalRecord; from: number }[]> {
  const duos = await Promise.all(
    Array.from({ length: count / cutsInEach }, () => bringDuo({ bars: 2 * cutsInEach })),
  );
  const ofEach = duos.map(async (duo) => {
    const all = [];
    for (let from = 0; from < 2 * cutsInEach; from += 2)
      all.push({ duo, from, proposal: await proposed(duo, from, from + 1) });
    return all;
  });
  return (await Promise.all(ofEach)).flat();
}

async function race<T>(all: readonly T[], run: (one: T) => Promise<void>): Promise<void> {
  for (let start = 0; start < all.length; start += atOnce) {
    await Promise.all(all.slice(start, start + atOnce).map(run));
  }
}

const agree = ({ id, termsHash }: ProposalRecord) => ({ proposalId: id, answer: "agree", termsHash });
const editionCount = 12;
const wins = (results: readonly Result<unknown, unknown>[]) => results.filter(({ ok }) => ok).length;

describe("answers racing", { timeout: 180_000 }, () => {
  test(`agree against counter-propose, ${pairs} times: exactly one of them`, async () => {
    let agreed = 0;
    await race(await bringProposals(pairs), async ({ duo, proposal, from }) => {
      const counter = {
        ...cutOf(duo, from, from + 1),
        from: { barIndex: from, offset: "2" },
        proposalId: proposal.id,
      };
      const [yes, other] = await Promise.all([
        answerProposal(duo.soloist, duo.pieceId, agree(proposal)),
        counterPropose(duo.pianist, duo.pieceId, counter),
      ]);
      expect(wins([yes, other])).toBe(1);
      const rows = valued(await listProposals(duo.pianist, duo.pieceId)).filter(
        ({ number }) => number === proposal.number,
      );
      expect(rows.map(({ state }) => state)).toEqual(yes.ok ? ["agreed"] : ["superseded", "open"]);
      if (yes.ok) agreed += 1;
    });
    console.log(`agree against counter-propose: ${agreed} times agreed, ${pairs - agreed} times countered`);
  });

  test("yes, no and taking it back from three devices, 60 times: exactly one of them, with one answer on record", async () => {
    await race(await bringProposals(60), async ({ duo, proposal }) => {
      const no = { ...agree(proposal), answer: "decline", reason: "No." };
      const results = await Promise.all([
        answerProposal(duo.soloist, duo.pieceId, agree(proposal)),
        answerProposal(duo.soloist, duo.pieceId, no),
        withdrawProposal(duo.pianist, duo.pieceId, { proposalId: proposal.id }),
      ]);
      expect(wins(results)).toBe(1);
      expect(await database().answer.count({ where: { proposalId: proposal.id } })).toBe(1);
    });
  });
});

describe("freezing", { timeout: 120_000 }, () => {
  test("both players agreeing at once, twice each: one edition, numbers without gaps", async () => {
    const duo = await bringDuo();
    for (let number = 1; number <= editionCount; number += 1) {
      const tempo = {
        ...printedTempo,
        tempi: [{ at: { barIndex: 0, offset: "0" }, quartersPerMinute: 60 + number }],
      };
      valued(await setTempoSettings(duo.pianist, duo.pieceId, { settings: tempo }));
      const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
      const results = await Promise.all(
        [duo.pianist, duo.soloist, duo.pianist, duo.soloist].map((person) =>
          approveEdition(person, duo.pieceId, { hash }),
        ),
      );
      const frozen = results.flatMap((result) =>
        result.ok && result.value.frozen ? [result.value.frozen] : [],
      );
      expect(frozen.map((edition) => edition.number)).toEqual([number]);
    }
    const editions = await database().edition.findMany({
      where: { pieceId: duo.pieceId },
      orderBy: { number: "asc" },
    });
    expect(editions.map(({ number }) => number)).toEqual(
      Array.from({ length: editionCount }, (_, index) => index + 1),
    );
    expect(editions.map(({ previousHash }) => previousHash)).toEqual([
      null,
      ...editions.slice(0, -1).map(({ hash }) => hash),
    ]);
  });

  test("the second yes against a changed tempo: what is frozen is what both agreed to", async () => {
    const duo = await bringDuo();
    for (let round = 1; round <= 20; round += 1) {
      const tempo = {
        ...printedTempo,
        tempi: [{ at: { barIndex: 1, offset: "0" }, quartersPerMinute: 60 + round }],
      };
      const { hash, canFreeze } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
      if (canFreeze) valued(await approveEdition(duo.pianist, duo.pieceId, { hash }));
      const [yes] = await Promise.all([
        approveEdition(duo.soloist, duo.pieceId, { hash }),
        setTempoSettings(duo.pianist, duo.pieceId, { settings: tempo }),
      ]);
      if (yes.ok) expect(yes.value.frozen?.hash).toBe(hash);
      const { approvals } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
      expect(approvals).toEqual([]);
    }
  });
});
