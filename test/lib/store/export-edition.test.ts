import { createHash } from "node:crypto";
import { beforeEach, describe, expect, test } from "vitest";
import { readEditionArchive } from "@/lib/edition/archive/read-edition-archive";
import { inspectEdition } from "@/lib/inspect/inspect-edition";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { exportEdition } from "@/lib/store/editions/export-edition";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, proposed, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

/** Agrees a cut from bar to bar and freezes what stands then. */
async function freezeWithCut(from: number, to: number): Promise<void> {
  const { id, termsHash } = await proposed(duo, from, to);
  valued(await answerProposal(duo.soloist, duo.pieceId, { proposalId: id, answer: "agree", termsHash }));
  const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
  valued(await approveEdition(duo.pianist, duo.pieceId, { hash }));
  valued(await approveEdition(duo.soloist, duo.pieceId, { hash }));
}

const exportAs = (person: Person, number: number) => exportEdition(person, duo.pieceId, number, "engraver-1");

describe("an edition that was frozen in the database", () => {
  test("is exported with its chain and its music, and everything in it holds", async () => {
    await freezeWithCut(9, 12);
    await freezeWithCut(15, 18);
    const { bytes } = valued(await exportAs(duo.soloist, 2));
    const inspected = inspectEdition(bytes);
    const frozen = valued(await listEditions(duo.pianist, duo.pieceId));
    expect(inspected.ok && inspected.value).toMatchObject({
      ...{ number: 2, hash: frozen[0]?.hash, isWhole: true, isAsPacked: true },
      editions: [...frozen].reverse().map(({ hash, previousHash }) => ({ hash, previousHash })),
    });
    const read = readEditionArchive(bytes);
    const source = valued(await readSourceBytes(duo.pianist, duo.pieceId));
    expect(read.ok && Buffer.compare(read.value.archive.sources[0]!.bytes, source.bytes)).toBe(0);
    expect(source.hash).toBe(createHash("sha256").update(source.bytes).digest("hex"));
  });

  test("is the same file whoever asks and however often, also when there are later ones", async () => {
    await freezeWithCut(9, 12);
    const first = valued(await exportAs(duo.pianist, 1)).bytes;
    await freezeWithCut(15, 18);
    for (const person of [duo.pianist, duo.soloist, duo.coach, duo.reader]) {
      expect(Buffer.compare(valued(await exportAs(person, 1)).bytes, first)).toBe(0);
    }
  });

  test("is not there for a stranger, nor before it is frozen", async () => {
    await freezeWithCut(9, 12);
    expect(kindOf(await exportAs(duo.stranger, 1))).toBe(kindOf(await exportAs(duo.pianist, 2)));
    expect(kindOf(await exportAs(duo.pianist, 2))).toBe("not-found");
  });
});
