import { beforeAll, describe, expect, test } from "vitest";
import { applyUpdate } from "yjs";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { toRestNeed } from "@/lib/edition/rest-need-terms";
import { findMentions } from "@/lib/room/find-mentions";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readBreaths } from "@/lib/room/read-breaths";
import { readComments } from "@/lib/room/read-comments";
import { readPencilledCuts } from "@/lib/room/read-pencilled-cuts";
import { noQuarters } from "@/lib/score/quarters";
import { readTempoMap } from "@/lib/score/tempo-map";
import { signIn } from "@/lib/store/auth/sign-in";
import { database } from "@/lib/store/database";
import { comparePieceEditions } from "@/lib/store/editions/compare-piece-editions";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { listPerformances } from "@/lib/store/performances/list-performances";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { listRestNeeds } from "@/lib/store/rests/list-rest-needs";
import { readRoomHistory } from "@/lib/store/room/read-room-history";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import type { Viewer } from "@/lib/store/viewer";
import { CUT_TRAPS, GOOD_CUT, type PlantedPosition } from "@/seed/concertino/planted";
import { demoHistory } from "@/seed/demo-history";
import { loadDemo } from "@/seed/load-demo";
import { openStoreForFile, valued } from "./duo";

openStoreForFile();
let nerys: Viewer;
let pieceId: string;
const password = "a password for the demo";
const loadedAt = new Date();
beforeAll(async () => {
  // What a load leaves behind that was cut off: nobody can sign in as this person, and nothing stands in the way.
  await database().user.create({
    data: { email: "cut-off@loading.example.org", name: "Nerys Quill", passwordHash: "none" },
  });
  expect(await loadDemo(password, loadedAt)).toBe(true);
  nerys = valued(await signIn({ email: "nerys@example.org", password }, "192.0.2.7"));
  pieceId = (await listPieces(nerys))[0]?.id ?? "";
});

describe("the demo", () => {
  test("is loaded once", async () => {
    expect(await loadDemo(password)).toBe(false);
    expect(await database().user.count({ where: { email: { endsWith: "@example.org" } } })).toBe(3);
    expect(await database().piece.count()).toBe(1);
  });

  test("has a duo, a coach, the concertino and its full score", async () => {
    const piece = valued(await readPiece(nerys, pieceId));
    expect(piece.members.map(({ name, role }) => [name, role])).toEqual([
      ["Nerys Quill", "pianist"],
      ["Matthis Orban", "soloist"],
      ["Dagny Thorsell", "coach"],
    ]);
    expect(piece).toMatchObject({ limitSeconds: 450, source: { hasFullScore: true } });
    const { score } = valued(await readPieceScore(nerys, pieceId));
    // What the history relies on: the upbeat is bar 0, so that printed numbers are indices.
    expect(score.bars.every(({ label, index }) => label === String(index))).toBe(true);
  });

  test("has one agreed cut, frozen as № 1 by both, and one that waits for Nerys", async () => {
    const proposals = valued(await listProposals(nerys, pieceId));
    expect(proposals.map(({ state, frozenInEditions }) => [state, frozenInEditions])).toEqual([
      ["agreed", [1]],
      ["open", []],
    ]);
    const [edition] = valued(await listEditions(nerys, pieceId));
    expect(edition?.content.cuts).toEqual([proposals[0]?.terms]);
    expect(edition?.approvals.map(({ name }) => name)).toEqual(["Nerys Quill", "Matthis Orban"]);
    expect(await listWaiting(nerys)).toMatchObject([{ kind: "proposal", from: "Matthis Orban" }]);
    expect(valued(await readWorkingEdition(nerys, pieceId))).toMatchObject({ number: 2, canFreeze: false });
  });

  test("has breaths and cues in № 1; since then one breath is gone, a cue is new, a remark is to be printed", async () => {
    const [edition] = valued(await listEditions(nerys, pieceId));
    expect(edition?.content.breaths).toHaveLength(demoHistory.breathsBefore.length + 1);
    expect(edition?.content.cues.map(({ at, text }) => [at.barIndex, text])).toEqual([
      [120, "Cor."],
      [128, "Vc."],
    ]);
    const told = valued(await comparePieceEditions(nerys, pieceId, 1, "working"));
    expect(told.map(({ sentence }) => sentence)).toEqual([
      "Breath taken off at the end of bar 133.",
      "Ob. solo written over bar 118.",
      "Matthis's remark printed in bars 119–120: “I breathe in with the release of the fermata. Please wait for that, not for my fingers.”",
    ]);
  });

  test("keeps why each cut was put forward, as the server found it", async () => {
    const [agreed, open] = valued(await listProposals(nerys, pieceId));
    expect(agreed?.why).toMatchObject({ schema: 1, grade: "clean", plan: null });
    expect(agreed?.why?.sentences[0]).toContain("The same bars lead to the cut and to bar 17");
    expect(open?.why?.sentences.join(" ")).toContain("25 s needed (lip): enough.");
    expect(open?.why?.savedSeconds).toBeGreaterThan(14);
  });

  test("has the soloist's needed rests: the planted cut robs one, the good one and the open one do not", async () => {
    const piece = valued(await readPiece(nerys, pieceId));
    expect(piece.breath).toEqual(demoHistory.breath.preferences);
    const matthis = piece.members.find(({ role }) => role === "soloist")?.userId;
    const needs = valued(await listRestNeeds(nerys, pieceId));
    expect(needs.map(({ terms, notedBy, releasedBy }) => [terms.why, notedBy, releasedBy])).toEqual([
      ["lip", matthis, null],
      ["pitch", matthis, null],
      ["water out of the upper joint", matthis, matthis],
    ]);
    const { score } = valued(await readPieceScore(nerys, pieceId));
    const verdicts = (from: PlantedPosition, to: PlantedPosition) => {
      const place = ({ bar }: PlantedPosition) => ({ barIndex: Number(bar), offset: noQuarters });
      const cut = { from: place(from), to: place(to) };
      return checkRestNeeds(score, readTempoMap(score), [cut], needs.map(toRestNeed)).map(
        ({ verdict }) => verdict,
      );
    };
    const stolen = CUT_TRAPS.find(({ kind }) => kind === "stolen rest");
    if (!stolen) throw new Error("no stolen rest is planted");
    expect(verdicts(stolen.from, stolen.to)).toEqual(["short", "kept", "released"]);
    expect(verdicts(GOOD_CUT.from, GOOD_CUT.to)).toEqual(["kept", "kept", "released"]);
    const { first, last } = demoHistory.openCut.bars;
    const openCut = [first, last + 1].map((bar) => ({ bar: String(bar), quarter: 0 }));
    expect(verdicts(...(openCut as [PlantedPosition, PlantedPosition]))[0]).toBe("kept");
  });

  test("has a performance of № 1 that kept within its limit, and one to come", async () => {
    const performances = valued(await listPerformances(nerys, pieceId));
    expect(performances).toMatchObject([
      { editionNumber: 1, limitSeconds: 450, realSeconds: null },
      { editionNumber: 1, limitSeconds: 480 },
    ]);
    const [, { plannedSeconds = 0, realSeconds = 0 } = {}] = performances;
    expect(plannedSeconds).toBeGreaterThan(420);
    expect(realSeconds).toBeGreaterThan(plannedSeconds);
    expect(realSeconds).toBeLessThan(480);
  });

  test("has comments and breaths in its room, each in their author's name", async () => {
    const log = await readRoomLog(pieceId);
    const doc = openRoomDoc();
    for (const { update } of log?.updates ?? []) applyUpdate(doc, update);
    expect(readBreaths(doc).length).toBeGreaterThan(5);
    expect(readComments(doc).length).toBeGreaterThan(6);
    const byUpdate = await database().roomUpdate.groupBy({ by: ["userId"], _count: true });
    const authors = new Set([...readComments(doc), ...readBreaths(doc)].map(({ authorId }) => authorId));
    expect(byUpdate.map(({ userId }) => userId).sort()).toEqual([...authors].sort());
  });

  test("has a thread that was resolved, a comment that names both others, and the soloist's pencilled cut", async () => {
    const { changes } = valued(await readRoomHistory(nerys, pieceId));
    const doc = openRoomDoc();
    for (const { update } of (await readRoomLog(pieceId))?.updates ?? []) applyUpdate(doc, update);
    const comments = readComments(doc);
    const piece = valued(await readPiece(nerys, pieceId));
    const idOf = (name: string) => piece.members.find((member) => member.name === name)?.userId;
    const [matthis, dagny] = ["Matthis Orban", "Dagny Thorsell"].map(idOf);
    expect(comments.filter(({ resolvedBy }) => resolvedBy !== null)).toHaveLength(1);
    expect(comments.filter(({ editedAt }) => editedAt !== null)).toMatchObject([{ authorId: dagny }]);
    const mentioned = comments
      .map(({ text }) => findMentions(text, piece.members))
      .filter((ids) => ids.length);
    expect(mentioned).toEqual([[matthis], [nerys.userId, dagny]]);
    expect(readPencilledCuts(doc)).toMatchObject([
      { versions: [{ authorId: matthis, from: { barIndex: 173 }, to: { barIndex: 177 } }] },
    ]);
    const times = changes.map(({ at }) => at);
    expect(times).toEqual(times.toSorted());
    expect(changes.filter(({ before }) => before !== null).map(({ map }) => map)).toEqual([
      "comments",
      "breaths",
      "comments",
    ]);
  });

  test("lies in the past, in the order in which it happened", async () => {
    const at = (rows: readonly { at: Date }[]) => rows.map((row) => row.at.getTime());
    const trail = at(await database().auditEntry.findMany({ orderBy: { id: "asc" } }));
    expect(trail).toEqual(trail.toSorted((a, b) => a - b));
    expect(Math.max(...trail)).toBeLessThan(loadedAt.getTime());
    const updates = await database().roomUpdate.findMany({ where: { createdAt: { gt: loadedAt } } });
    expect(updates).toEqual([]);
  });
});
