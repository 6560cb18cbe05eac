import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { CommentRecord } from "@/lib/room/comment-record";
import { judgeUpdate } from "@/lib/room/judge-update";
import { mergeUpdates } from "@/lib/room/merge-updates";
import { copyRoomDoc, openRoomDoc } from "@/lib/room/open-room-doc";
import { findRecord } from "@/lib/room/read-records";
import { roomAsJson } from "@/lib/room/room-as-json";
import type { RoomMember } from "@/lib/room/room-member";
import { clocksOf, countUnsaved, noteStored, type StoredClocks } from "@/lib/room/stored-clocks";
import { writeRecord } from "@/lib/room/write-record";
import { coach, pianist, soloist } from "@/test/lib/room/room-members";

const people: readonly RoomMember[] = [pianist, soloist, coach, pianist];
const now = new Date("2026-11-25T09:00:00.000Z");

/** One person's page: a document, what waits to be sent, and what is known to be stored. */
interface Page {
  readonly member: RoomMember;
  readonly doc: Y.Doc;
  stored: StoredClocks;
}

type Step =
  | { kind: "write"; page: number; key: number; text: string }
  | { kind: "delete"; page: number; key: number }
  | { kind: "resolve"; page: number; key: number; isResolved: boolean }
  | { kind: "breathe"; page: number; key: number; barIndex: number }
  | { kind: "meet"; page: number }
  | { kind: "restart" };

const page = fc.nat(people.length - 1);
const key = fc.nat(4);
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    kind: fc.constant("write" as const),
    page,
    key,
    text: fc.string({ minLength: 1, maxLength: 8 }),
  }),
  fc.record({ kind: fc.constant("delete" as const), page, key }),
  fc.record({ kind: fc.constant("resolve" as const), page, key, isResolved: fc.boolean() }),
  fc.record({ kind: fc.constant("breathe" as const), page, key, barIndex: fc.nat(9) }),
  fc.record({ kind: fc.constant("meet" as const), page }),
  fc.constant({ kind: "restart" as const }),
);

function act(step: Step, { member, doc }: Page): void {
  if (step.kind === "write") {
    const id = `${member.userId}-${step.key}`;
    const old = findRecord(doc, "comments", id);
    writeRecord(doc, "comments", { ...(old ?? newComment(id, member)), text: step.text }, member, now);
  } else if (step.kind === "delete") {
    const old = findRecord(doc, "comments", `${member.userId}-${step.key}`);
    if (old) writeRecord(doc, "comments", { ...old, deletedAt: now.toISOString() }, member, now);
  } else if (step.kind === "resolve") {
    // Anybody's comment, also one that nobody wrote here yet.
    const commentId = `ines-${step.key}`;
    const record = { commentId, byId: member.userId, at: now.toISOString(), isResolved: step.isResolved };
    writeRecord(doc, "resolutions", record, member, now);
  } else if (step.kind === "breathe") {
    const id = `${member.userId}-${step.key}`;
    const at = { barIndex: step.barIndex, offset: "1/2" };
    writeRecord(doc, "breaths", { id, authorId: member.userId, at, deletedAt: null }, member, now);
  }
}

function newComment(id: string, { userId }: RoomMember): CommentRecord {
  const about = { kind: "proposal" as const, proposalId: "p1" };
  const createdAt = "2026-11-25T08:00:00.000Z";
  return { id, authorId: userId, createdAt, text: "x", about, replyTo: null, deletedAt: null, print: false };
}

/** The server's side, as realtime/ does it: judge, append to the log, take in. */
class Server {
  readonly log: Uint8Array[] = [];
  doc = openRoomDoc();

  take(update: Uint8Array, member: RoomMember): void {
    const judged = judgeUpdate(this.doc, copyRoomDoc(this.doc), update, member, () => null, now);
    if (!judged.ok) throw new Error(`refused: ${judged.problem.kind}`);
    const { addition } = judged.value;
    if (addition === null) return;
    this.log.push(addition);
    Y.applyUpdate(this.doc, addition);
  }

  /** Everything from the log, half of it by way of a snapshot. */
  restart(): void {
    const half = Math.floor(this.log.length / 2);
    this.doc = openRoomDoc();
    Y.applyUpdate(this.doc, mergeUpdates(this.log.slice(0, half)));
    for (const update of this.log.slice(half)) Y.applyUpdate(this.doc, update);
  }

  /** A page comes back: each sends what the other lacks. */
  meet(page: Page): void {
    const held = Y.encodeStateVector(this.doc);
    this.take(Y.encodeStateAsUpdate(page.doc, held), page.member);
    Y.applyUpdate(page.doc, Y.encodeStateAsUpdate(this.doc, Y.encodeStateVector(page.doc)));
    page.stored = noteStored(page.stored, Y.encodeStateVector(this.doc));
  }
}

test("pages that write apart and meet the server now and then end with the same room, and it is the log's", () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 60 }), (steps) => {
      const server = new Server();
      const pages: Page[] = people.map((member) => ({ member, doc: openRoomDoc(), stored: new Map() }));
      for (const taken of steps) {
        if (taken.kind === "restart") server.restart();
        else if (taken.kind === "meet") server.meet(pages[taken.page] as Page);
        else act(taken, pages[taken.page] as Page);
      }
      for (const page of [...pages, ...pages]) server.meet(page);
      server.restart();
      const expected = roomAsJson(server.doc);
      for (const { doc, stored } of pages) {
        expect(roomAsJson(doc)).toBe(expected);
        expect(countUnsaved(doc, stored)).toBe(0);
      }
    }),
    { numRuns: 150 },
  );
});

test("each record written counts as one unsaved write until its clock is acknowledged", () => {
  fc.assert(
    fc.property(fc.array(fc.nat(4), { minLength: 1, maxLength: 20 }), (keys) => {
      const doc = openRoomDoc();
      const sent: Uint8Array[] = [];
      doc.on("update", (update: Uint8Array) => sent.push(update));
      for (const key of keys)
        act({ kind: "write", page: 0, key, text: "word" }, { member: pianist, doc, stored: new Map() });
      let stored: StoredClocks = new Map();
      expect(countUnsaved(doc, stored)).toBe(keys.length);
      sent.forEach((update, index) => {
        stored = noteStored(stored, clocksOf(update));
        expect(countUnsaved(doc, stored)).toBe(keys.length - index - 1);
      });
    }),
    { numRuns: 100 },
  );
});

test("a log with a gap is not merged", () => {
  const doc = openRoomDoc();
  const sent: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => sent.push(update));
  for (const key of [1, 2, 3])
    act({ kind: "write", page: 0, key, text: "word" }, { member: pianist, doc, stored: new Map() });
  expect(() => mergeUpdates([sent[0] as Uint8Array, sent[2] as Uint8Array])).toThrow("gap");
});
