import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { listUnsaved } from "@/lib/room/list-unsaved";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { toPosition, toPositionRecord } from "@/lib/room/position-record";
import { readBreaths } from "@/lib/room/read-breaths";
import { readComments } from "@/lib/room/read-comments";
import { readCues } from "@/lib/room/read-cues";
import { noteStored } from "@/lib/room/stored-clocks";
import { writeRecord } from "@/lib/room/write-record";
import { quarters } from "@/lib/score/quarters";
import { coach, pianist, soloist } from "@/test/lib/room/room-members";
import { cueOf, put } from "@/test/lib/room/room-records";

const at = { barIndex: 3, offset: quarters(4, 3) };
const about = { kind: "span" as const, from: toPositionRecord(at), to: toPositionRecord(at) };
const rest = { about, replyTo: null, deletedAt: null, print: false } as const;

describe("reading a room", () => {
  test("positions come back exactly", () => {
    expect(toPosition(toPositionRecord(at))).toEqual(at);
  });

  test("comments come in the order in which they were written, with who resolved them", () => {
    const doc = openRoomDoc();
    const early = {
      id: "z",
      authorId: "ines",
      createdAt: "2026-11-01T10:00:00.000Z",
      text: "Early",
      ...rest,
    };
    const late = {
      id: "a",
      authorId: "tobias",
      createdAt: "2026-11-02T10:00:00.000Z",
      text: "Late",
      ...rest,
    };
    writeRecord(doc, "comments", late, soloist);
    writeRecord(doc, "comments", early, pianist);
    const resolution = { commentId: "z", byId: "mara", at: "2026-11-03T10:00:00.000Z", isResolved: true };
    writeRecord(doc, "resolutions", resolution, coach);
    expect(readComments(doc).map(({ id, resolvedBy }) => [id, resolvedBy])).toEqual([
      ["z", "mara"],
      ["a", null],
    ]);
    expect(readComments(doc)[0]?.about).toEqual({ kind: "span", from: at, to: at });
    writeRecord(doc, "resolutions", { ...resolution, byId: "ines", isResolved: false }, pianist);
    expect(readComments(doc)[0]?.resolvedBy).toBeNull();
    expect(readComments(doc)[0]?.reopenedBy).toBe("ines");
  });

  test("a resolution and a change of the text at the same time both stay", () => {
    const doc = openRoomDoc();
    const written = {
      id: "c1",
      authorId: "ines",
      createdAt: "2026-11-01T10:00:00.000Z",
      text: "First",
      ...rest,
    };
    writeRecord(doc, "comments", written, pianist);
    const other = openRoomDoc();
    Y.applyUpdate(other, Y.encodeStateAsUpdate(doc));
    writeRecord(doc, "comments", { ...written, text: "Second" }, pianist);
    const resolution = { commentId: "c1", byId: "tobias", at: "2026-11-03T10:00:00.000Z", isResolved: true };
    writeRecord(other, "resolutions", resolution, soloist);
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(other));
    Y.applyUpdate(other, Y.encodeStateAsUpdate(doc));
    for (const page of [doc, other])
      expect(readComments(page)).toEqual([expect.objectContaining({ text: "Second", resolvedBy: "tobias" })]);
  });

  test("breaths come in written order without those that were removed", () => {
    const doc = openRoomDoc();
    const breath = (id: string, barIndex: number, offset: string, deletedAt: string | null = null) =>
      writeRecord(doc, "breaths", { id, authorId: "tobias", at: { barIndex, offset }, deletedAt }, soloist);
    breath("b1", 8, "1/2");
    breath("b2", 7, "7/2");
    breath("b3", 8, "1/3");
    breath("b4", 1, "0", "2026-11-03T10:00:00.000Z");
    expect(readBreaths(doc).map(({ id }) => id)).toEqual(["b2", "b3", "b1"]);
  });

  test("cues come in written order without those that were taken off", () => {
    const doc = openRoomDoc();
    put(doc, "cues", cueOf(pianist, "k1", 8), pianist);
    put(doc, "cues", cueOf(soloist, "k2", 7, { text: "Ob. solo" }), soloist);
    put(doc, "cues", cueOf(soloist, "k3", 1, { deletedAt: "2026-11-03T10:00:00.000Z" }), soloist);
    expect(readCues(doc).map(({ id, text }) => [id, text])).toEqual([
      ["k2", "Ob. solo"],
      ["k1", "Fl."],
    ]);
  });

  test("what is no record is passed over", () => {
    const doc = openRoomDoc();
    doc.getMap("comments").set("c1", { id: "c1" });
    doc.getMap("breaths").set("b1", "here");
    expect([readComments(doc), readBreaths(doc)]).toEqual([[], []]);
  });

  test("halves of split characters are replaced before anybody sees them", () => {
    const doc = openRoomDoc();
    const text = "fermata \u{1D110} \uD834";
    writeRecord(
      doc,
      "comments",
      { id: "c1", authorId: "ines", createdAt: "2026-11-01T10:00:00.000Z", text, ...rest },
      pianist,
    );
    const other = openRoomDoc();
    Y.applyUpdate(other, Y.encodeStateAsUpdate(doc));
    expect(readComments(doc)[0]?.text).toBe("fermata \u{1D110} \uFFFD");
    expect(readComments(other)).toEqual(readComments(doc));
  });

  test("the unsaved records are those whose last writing is not stored", () => {
    const doc = openRoomDoc();
    const written = {
      id: "c1",
      authorId: "ines",
      createdAt: "2026-11-01T10:00:00.000Z",
      text: "First",
      ...rest,
    };
    writeRecord(doc, "comments", written, pianist);
    writeRecord(doc, "comments", { ...written, id: "c2" }, pianist);
    const stored = noteStored(new Map(), Y.encodeStateVector(doc));
    expect(listUnsaved(doc, stored)).toEqual([]);
    writeRecord(doc, "comments", { ...written, text: "Second" }, pianist);
    expect(listUnsaved(doc, stored)).toEqual([
      { map: "comments", key: "c1", record: { ...written, text: "Second" } },
    ]);
  });
});
