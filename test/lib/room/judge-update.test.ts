import fc from "fast-check";
import * as encoding from "lib0/encoding";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { CommentRecord } from "@/lib/room/comment-record";
import { judgeUpdate } from "@/lib/room/judge-update";
import { copyRoomDoc, openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { maxClientClock, maxRecords, maxUpdateBytes } from "@/lib/room/room-limits";
import type { RoomMember } from "@/lib/room/room-member";
import { pianist, reader, soloist } from "@/test/lib/room/room-members";

const nobody = () => null;

function comment(id: string, authorId: string, text = "Here"): CommentRecord {
  return {
    id,
    authorId,
    createdAt: "2026-11-25T08:00:00.000Z",
    text,
    about: { kind: "proposal", proposalId: "p1" },
    replyTo: null,
    deletedAt: null,
    print: false,
  };
}

/** What a client sends after doing something on a copy of the room. */
function updateOf(room: Y.Doc, act: (copy: Y.Doc) => void): Uint8Array {
  const copy = copyRoomDoc(room);
  const before = Y.encodeStateVector(copy);
  act(copy);
  return Y.encodeStateAsUpdate(copy, before);
}

function judge(room: Y.Doc, update: Uint8Array, member: RoomMember = pianist) {
  return judgeUpdate(room, copyRoomDoc(room), update, member, nobody);
}

function kindOf(verdict: ReturnType<typeof judge>): string {
  return verdict.ok ? "taken" : verdict.problem.kind;
}

describe("the gate of a room", () => {
  test("tells what an update changes", () => {
    const room = openRoomDoc();
    room.getMap("comments").set("c1", comment("c1", "ines", "Old"));
    const update = updateOf(room, (copy) => {
      copy.getMap("comments").set("c1", comment("c1", "ines", "New"));
      copy.getMap("comments").set("c2", comment("c2", "ines"));
    });
    const verdict = judge(room, update);
    expect(verdict.ok && verdict.value.changes).toMatchObject([
      {
        map: "comments",
        key: "c1",
        before: comment("c1", "ines", "Old"),
        after: comment("c1", "ines", "New"),
      },
      { map: "comments", key: "c2", before: undefined, after: comment("c2", "ines") },
    ]);
  });

  test("leaves the room as it was", () => {
    const room = openRoomDoc();
    judge(
      room,
      updateOf(room, (copy) => copy.getMap("comments").set("c1", comment("c1", "ines"))),
    );
    expect(room.getMap("comments").size).toBe(0);
  });

  test("finds nothing new in what is already there", () => {
    const room = openRoomDoc();
    room.getMap("comments").set("c1", comment("c1", "ines"));
    const verdict = judge(room, Y.encodeStateAsUpdate(room), reader);
    expect(verdict.ok && verdict.value).toEqual({ changes: [], addition: null, clocks: new Map() });
  });

  test("tells how far the writes of the clients in it now reach", () => {
    const room = openRoomDoc();
    room.getMap("comments").set("c1", comment("c1", "ines"));
    const copy = copyRoomDoc(room);
    copy.getMap("comments").set("c2", comment("c2", "ines"));
    const verdict = judge(room, Y.encodeStateAsUpdate(copy));
    expect(verdict.ok && verdict.value.addition).toEqual(
      Y.encodeStateAsUpdate(copy, Y.encodeStateVector(room)),
    );
    expect(verdict.ok && verdict.value.clocks).toEqual(new Map([[copy.clientID, 1]]));
  });

  test.each([
    ["from the start", 0],
    ["after others that did not arrive", 7],
    ["after others that can never arrive", maxClientClock],
  ])("lets in no more writes of one client than Yjs can count, %s", (_where, clock) => {
    const update = encoding.encode((encoder) => {
      // Yjs update v1: one client with one struct, that of writes which are gone (type 0) and their number.
      for (const number of [1, 1, 5, clock]) encoding.writeVarUint(encoder, number);
      encoding.writeUint8(encoder, 0);
      encoding.writeVarUint(encoder, maxClientClock + 1);
      encoding.writeVarUint(encoder, 0);
    });
    expect(kindOf(judge(openRoomDoc(), update))).toBe("unreadable-update");
  });

  test("asks again when something before it is missing", () => {
    const room = openRoomDoc();
    const copy = copyRoomDoc(room);
    copy.getMap("comments").set("c1", comment("c1", "ines"));
    const first = Y.encodeStateVector(copy);
    copy.getMap("comments").set("c2", comment("c2", "ines"));
    expect(kindOf(judge(room, Y.encodeStateAsUpdate(copy, first)))).toBe("incomplete-update");
  });

  test.each([
    ["nested map", (copy: Y.Doc) => copy.getMap("comments").set("c1", new Y.Map()), "invalid-record"],
    [
      "document in the document",
      (copy: Y.Doc) => copy.getMap("comments").set("c1", new Y.Doc()),
      "invalid-record",
    ],
    ["bytes", (copy: Y.Doc) => copy.getMap("comments").set("c1", new Uint8Array(3)), "invalid-record"],
    ["map of another name", (copy: Y.Doc) => copy.getMap("proposals").set("p1", {}), "unknown-content"],
    ["text of another name", (copy: Y.Doc) => copy.getText("notes").insert(0, "x"), "unknown-content"],
    [
      "record that is written and erased at once",
      (copy: Y.Doc) => {
        copy.getMap("comments").set("c1", comment("c1", "ines"));
        copy.getMap("comments").delete("c1");
      },
      "unknown-content",
    ],
  ] as [string, (copy: Y.Doc) => void, string][])("lets in no %s", (_what, act, kind) => {
    const room = openRoomDoc();
    expect(kindOf(judge(room, updateOf(room, act)))).toBe(kind);
  });

  test("lets in no second author behind a first one's back", () => {
    // Written without having seen the first: Yjs may let either of the two win.
    const room = openRoomDoc();
    const other = openRoomDoc();
    room.getMap("comments").set("c1", comment("c1", "ines"));
    for (const clientId of [1, 2 ** 31]) {
      other.clientID = clientId;
      other.getMap("comments").set("c1", comment("c1", "tobias"));
      expect(kindOf(judge(room, Y.encodeStateAsUpdate(other), soloist))).toBe("not-your-record");
    }
  });

  test("holds no more records than a room may have", () => {
    const room = openRoomDoc();
    room.transact(() => {
      for (let index = 0; index < maxRecords.comments; index += 1)
        room.getMap("comments").set(`c${index}`, comment(`c${index}`, "ines"));
    });
    const more = updateOf(room, (copy) => copy.getMap("comments").set("more", comment("more", "ines")));
    const change = updateOf(room, (copy) =>
      copy.getMap("comments").set("c7", comment("c7", "ines", "Shorter")),
    );
    expect(kindOf(judge(room, more))).toBe("room-full");
    expect(kindOf(judge(room, change))).toBe("taken");
  });

  test("reads no more bytes than an update may have", () => {
    expect(kindOf(judge(openRoomDoc(), new Uint8Array(maxUpdateBytes + 1)))).toBe("update-too-large");
  });

  test("meets any bytes with an answer, and any answer but a yes leaves nothing behind", () => {
    const room = openRoomDoc();
    room.getMap("comments").set("c1", comment("c1", "ines"));
    const before = roomAsJson(room);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 120 }), (bytes) => {
        const verdict = judge(room, bytes);
        expect(verdict.ok ? verdict.value.addition : null).toBeNull();
        expect(roomAsJson(room)).toBe(before);
      }),
      { numRuns: 1_000 },
    );
  });

  test("meets a true update with some bytes changed with an answer, and lets in records of the room only", () => {
    const room = openRoomDoc();
    const update = updateOf(room, (copy) => copy.getMap("comments").set("c1", comment("c1", "ines")));
    const change = fc.record({ at: fc.nat(update.length - 1), to: fc.nat(255) });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const bent = update.slice();
        for (const { at, to } of changes) bent[at] = to;
        const verdict = judge(room, bent);
        if (!verdict.ok || verdict.value.addition === null) return;
        const after = copyRoomDoc(room);
        Y.applyUpdate(after, verdict.value.addition);
        expect([...after.getMap("comments").values()]).toEqual([
          expect.objectContaining({ authorId: "ines", replyTo: null, print: false }),
        ]);
      }),
      { numRuns: 1_000 },
    );
  });
});
