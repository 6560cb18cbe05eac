import { expect, test } from "vitest";
import { findInChanges } from "@/lib/room/history/find-in-changes";
import { replayRoom } from "@/lib/room/history/replay-room";
import { type RoomNames, sayRoomChange } from "@/lib/room/history/say-room-change";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { coach, pianist, soloist } from "@/test/lib/room/room-members";
import { breathOf, commentOf, cueOf, resolutionOf, TestLog, versionOf } from "@/test/lib/room/room-records";

const people = new Map([pianist, soloist, coach].map(({ userId, name }) => [userId, name]));
const names: Omit<RoomNames, "findComment" | "findVersion"> = {
  nameOf: (userId) => people.get(userId) ?? "",
  sayBars: (from, to) => `bars ${from.barIndex}–${to.barIndex - 1}`,
  sayPlace: (at) => `bar ${at.barIndex}`,
  sayProposal: (id) => `proposal ${id}`,
};

test("every change is one sentence", () => {
  const log = new TestLog();
  const deletedAt = "2026-11-25T08:30:00.000Z";
  log.write(pianist, "comments", commentOf(pianist, "c1"));
  const about = { kind: "proposal" as const, proposalId: "7" };
  log.write(coach, "comments", commentOf(coach, "c2", { about, replyTo: "c1", text: "Yes" }));
  log.write(pianist, "comments", commentOf(pianist, "c1", { text: "Wait\nfor me" }));
  log.write(pianist, "comments", commentOf(pianist, "c1", { text: "Wait for me", deletedAt }));
  log.write(pianist, "comments", commentOf(pianist, "c1", { text: "Wait for me" }));
  log.write(soloist, "resolutions", resolutionOf(soloist, "c1"));
  log.write(coach, "resolutions", resolutionOf(coach, "c1", false));
  log.write(soloist, "breaths", breathOf(soloist, "b1", 31));
  log.write(soloist, "breaths", breathOf(soloist, "b1", 32));
  log.write(soloist, "breaths", { ...breathOf(soloist, "b1", 32), deletedAt });
  log.write(soloist, "breaths", breathOf(soloist, "b1", 32));
  log.write(soloist, "pencilledCuts", versionOf(soloist, "v1", [9, 17]));
  log.write(pianist, "pencilledCuts", versionOf(pianist, "v2", [9, 21], ["v1"]));
  log.write(soloist, "pencilledCuts", versionOf(soloist, "v3", [9, 19], ["v1"]));
  log.write(soloist, "pencilledCuts", versionOf(soloist, "v4", [9, 21], ["v2", "v3"]));
  log.write(pianist, "pencilledCuts", versionOf(pianist, "v5", [9, 21], ["v4"], { isRubbedOut: true }));
  log.write(pianist, "pencilledCuts", versionOf(pianist, "v6", [9, 21], ["v5"]));
  log.beginAnew(openRoomDoc());
  const changes = replayRoom(log.entries);
  const said = changes.map((change) => sayRoomChange(change, { ...names, ...findInChanges(changes) }));
  expect(said.slice(0, 18)).toEqual([
    "Ines Varga commented on bars 12–14: “Wait for the breath”",
    "Mara Quint answered a comment on proposal 7: “Yes”",
    "Ines Varga reworded their comment on bars 12–14: “Wait for me” Before: “Wait for the breath”",
    "Ines Varga deleted their comment on bars 12–14: “Wait for me”",
    "Ines Varga brought their comment on bars 12–14 back: “Wait for me”",
    "Tobias Lenk resolved the comment on bars 12–14: “Wait for me”",
    "Mara Quint reopened the comment on bars 12–14: “Wait for me”",
    "Tobias Lenk marked a breath at bar 31.",
    "Tobias Lenk moved the breath from bar 31 to bar 32.",
    "Tobias Lenk took the breath away at bar 32.",
    "Tobias Lenk brought the breath at bar 32 back.",
    "Tobias Lenk pencilled in a cut of bars 9–16.",
    "Ines Varga moved the pencilled cut of bars 9–16 to bars 9–20.",
    "Tobias Lenk moved the pencilled cut of bars 9–16 to bars 9–18.",
    "Tobias Lenk settled on the pencilled cut of bars 9–20.",
    "Ines Varga rubbed out the pencilled cut of bars 9–20.",
    "Ines Varga brought the pencilled cut of bars 9–20 back.",
    "Something was not there any more when the room began anew.",
  ]);
});

test("cues and what is to be printed", () => {
  const log = new TestLog();
  const deletedAt = "2026-11-25T08:30:00.000Z";
  log.write(pianist, "cues", cueOf(pianist, "k1", 31));
  log.write(pianist, "cues", cueOf(pianist, "k1", 31, { text: "Ob. solo" }));
  log.write(pianist, "cues", cueOf(pianist, "k1", 32, { text: "Ob. solo" }));
  log.write(pianist, "cues", cueOf(pianist, "k1", 32, { text: "Ob. solo", deletedAt }));
  log.write(pianist, "cues", cueOf(pianist, "k1", 32, { text: "Ob. solo" }));
  log.write(pianist, "comments", commentOf(pianist, "c1"));
  log.write(pianist, "comments", commentOf(pianist, "c1", { print: true }));
  log.write(pianist, "comments", commentOf(pianist, "c1"));
  const changes = replayRoom(log.entries);
  expect(changes.map((change) => sayRoomChange(change, { ...names, ...findInChanges(changes) }))).toEqual([
    "Ines Varga wrote the cue “Fl.” over bar 31.",
    "Ines Varga wrote “Ob. solo” instead of “Fl.” over bar 31.",
    "Ines Varga moved the cue “Ob. solo” from bar 31 to bar 32.",
    "Ines Varga took the cue “Ob. solo” off bar 32.",
    "Ines Varga brought the cue “Ob. solo” back over bar 32.",
    "Ines Varga commented on bars 12–14: “Wait for the breath”",
    "Ines Varga wants their comment on bars 12–14 printed in the edition: “Wait for the breath”",
    "Ines Varga no longer wants their comment on bars 12–14 printed in the edition: “Wait for the breath”",
  ]);
});

test("what was overtaken says so, and a long comment is cut short between two words", () => {
  const text = "softer and softer ".repeat(20);
  const record = commentOf(pianist, "c1", { text });
  const change = {
    ...{ sequence: 3, epoch: 1, at: "2026-11-25T08:01:00.000Z", userId: "ines", map: "comments" as const },
    ...{ key: "c1", before: null, after: record, isOvertaken: true },
  };
  const said = sayRoomChange(change, { ...names, ...findInChanges([]) });
  expect(said).toMatch(
    /^Ines Varga commented on bars 12–14: “softer (and softer|softer|and| )*…” At the same time/,
  );
  expect(said.length).toBeLessThan(260);
});
