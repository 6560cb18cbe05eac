import { expect, test } from "vitest";
import { findWaiting } from "@/app/_data/find-waiting";
import { acceptInvitation } from "@/lib/store/invitations/accept-invitation";
import { invite } from "@/lib/store/invitations/invite";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import type { Viewer } from "@/lib/store/viewer";
import {
  bringDuo,
  bringPerson,
  type Duo,
  openStoreForFile,
  proposed,
  rewriteOf,
  valued,
} from "@/test/lib/store/duo";

openStoreForFile();

/** How much waits for somebody: by a piece's header, by its line in the list, and by the slips beside the list. */
async function countWaiting(viewer: Viewer, { pieceId }: Duo) {
  const header = await findWaiting(viewer, valued(await readPiece(viewer, pieceId)));
  const line = (await listPieces(viewer)).find(({ id }) => id === pieceId);
  return {
    header: header.count,
    line: line?.waitsForMe,
    slips: (await listWaiting(viewer)).length,
    withOther: line?.waitsForOther,
  };
}

test("what a pianist put forward who left waits for the soloist, not for the next pianist", async () => {
  const duo = await bringDuo();
  const { id: proposalId, termsHash } = await proposed(duo, 9, 15);
  const asked = { ...rewriteOf(duo, 2), sharing: "asked" };
  valued(await keepRewrite(duo.pianist, duo.pieceId, asked));
  valued(await removeMember(duo.pianist, duo.pieceId, { userId: duo.pianist.userId }));
  const next = await bringPerson("Dagmar Reuss");
  const { token } = valued(await invite(duo.soloist, duo.pieceId, { role: "pianist" }));
  valued(await acceptInvitation(next, token));

  expect(await countWaiting(next, duo)).toEqual({ header: 0, line: 0, slips: 0, withOther: 2 });
  expect(await countWaiting(duo.soloist, duo)).toEqual({ header: 2, line: 2, slips: 2, withOther: 0 });
  const agree = { proposalId, termsHash, answer: "agree" };
  expect(await answerProposal(next, duo.pieceId, agree)).toMatchObject({
    problem: {
      kind: "not-allowed",
      sentence: "The pianist before you put this forward. The other player answers it.",
    },
  });
  valued(await answerProposal(duo.soloist, duo.pieceId, agree));
  expect(await countWaiting(duo.soloist, duo)).toMatchObject({ header: 1, line: 1, slips: 1 });
  expect((await listPieces(duo.soloist))[0]?.members).toHaveLength(4);
});
