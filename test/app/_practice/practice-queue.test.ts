import { beforeEach, describe, expect, test } from "vitest";
import type { ActionResult } from "@/app/_data/action-result";
import { type KeptPractice, keptPractice } from "@/app/_practice/kept-practice";
import { findShown, layChanges } from "@/app/_practice/lay-changes";
import type { PracticeChange } from "@/app/_practice/practice-change";
import { type SendPractice, sendPractice } from "@/app/_practice/send-practice";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { memoryStorage } from "../_offline/memory-storage";

const uuid = (last: number) => `0199c0de-0000-4000-8000-00000000000${last}`;
const every = (made: number) => ({
  ...{ version: 1, pieceId: "p", label: "bar 4", isSent: false, refusal: null },
  ...{ changeId: uuid(made), madeAt: 1_800_000_000_000 + made },
});
const entry = {
  ...{ fromBar: 3, toBar: 3, sourceHash: "0".repeat(64), note: "", at: "2027-03-01T10:00:00.000Z" },
  tempo: { beat: "1", perMinute: 96, held: true },
};
const logged = (made: number, entryId = uuid(9)): PracticeChange => ({
  ...every(made),
  ...{ version: 1, kind: "log", entry: { ...entry, entryId } },
});
const changed = (made: number, kind: "take off" | "bring back", entryId = uuid(9)): PracticeChange => ({
  ...every(made),
  ...{ version: 1, kind, entryId },
});
const onServer = (id: string, removedAt: string | null = null): PracticeRecord => ({
  ...entry,
  id,
  removedAt,
});

let kept: KeptPractice;
let storage: ReturnType<typeof memoryStorage>;
beforeEach(() => {
  storage = memoryStorage();
  kept = keptPractice("nerys", storage);
});

/** Actions that answer alike, and what reached them. */
function server(answer: (kind: string, count: number) => ActionResult<PracticeRecord> | null) {
  const arrived: string[] = [];
  const send = (kind: PracticeChange["kind"]) => async (input: unknown) => {
    arrived.push(`${kind} ${(input as { entryId: string }).entryId.at(-1)}`);
    const said = answer(kind, arrived.length);
    if (said === null) throw new TypeError("no connection");
    return said;
  };
  const actions: SendPractice = {
    log: send("log"),
    "take off": send("take off"),
    "bring back": send("bring back"),
  };
  return { arrived, actions };
}
const yes = () => ({ ok: true, value: onServer(uuid(9)) }) as const;

describe("a log on the device", () => {
  test("is there again after a reload, in the order in which it was made, each person’s own", () => {
    kept.keep(changed(2, "take off"));
    kept.keep(logged(1));
    expect(keptPractice("nerys", storage).list()).toEqual([logged(1), changed(2, "take off")]);
    expect(keptPractice("matthis", storage).list()).toEqual([]);
  });

  test("is sent in that order and then marked as sent", async () => {
    for (const change of [changed(2, "take off"), logged(1), changed(3, "bring back")]) kept.keep(change);
    const { arrived, actions } = server(yes);
    expect(await sendPractice(kept, actions)).toBe(true);
    expect(arrived).toEqual(["log 9", "take off 9", "bring back 9"]);
    expect(kept.list().map(({ isSent }) => isSent)).toEqual([true, true, true]);
    await sendPractice(kept, actions);
    expect(arrived).toHaveLength(3);
  });

  test.each([
    ["no connection", null],
    ["signed out", { ok: false, kind: "signed-out", sentence: "Sign in." } as const],
  ])("%s: everything stays and nothing overtakes", async (_what, said) => {
    kept.keep(logged(1));
    kept.keep(changed(2, "take off"));
    const { arrived, actions } = server(() => said);
    expect(await sendPractice(kept, actions)).toBe(false);
    expect(arrived).toEqual(["log 9"]);
    expect(kept.list()).toEqual([logged(1), changed(2, "take off")]);
  });

  test("what is refused keeps its reason and lets the rest go", async () => {
    kept.keep(logged(1, uuid(8)));
    kept.keep(logged(2));
    const refusal = "These bars are not in the piece.";
    const { actions } = server((_kind, count) =>
      count === 1 ? { ok: false, kind: "invalid-input", sentence: refusal } : yes(),
    );
    expect(await sendPractice(kept, actions)).toBe(true);
    expect(kept.list().map((change) => [change.isSent, change.refusal])).toEqual([
      [false, refusal],
      [true, null],
    ]);
  });

  test("what is kept while others are under way goes too, each once", async () => {
    kept.keep(logged(1));
    const { arrived, actions } = server(yes);
    const first = sendPractice(kept, actions);
    kept.keep(changed(2, "take off"));
    await Promise.all([first, sendPractice(kept, actions)]);
    expect(arrived).toEqual(["log 9", "take off 9"]);
  });
});

describe("the log on the screen", () => {
  const shown = (entries: PracticeRecord[], changes: PracticeChange[]) =>
    layChanges(entries, changes).map(({ id, removedAt, isUnsent, refusal }) =>
      [id.at(-1), removedAt ? "off" : "on", isUnsent ? "unsent" : "sent", refusal].filter(Boolean).join(" "),
    );
  const sent = (change: PracticeChange): PracticeChange => ({ ...change, isSent: true });

  test.each([
    ["as the server has it", [onServer(uuid(9))], [], ["9 on sent"]],
    ["an entry of this device", [], [logged(1)], ["9 on unsent"]],
    ["one that arrived before the page knows", [], [sent(logged(1))], ["9 on sent"]],
    ["one that both have is one", [onServer(uuid(9))], [sent(logged(1))], ["9 on sent"]],
    ["one taken off", [onServer(uuid(9))], [changed(2, "take off")], ["9 off unsent"]],
    ["one taken off before it was sent", [], [logged(1), changed(2, "take off")], ["9 off unsent"]],
    [
      "one taken off and brought back",
      [onServer(uuid(9))],
      [changed(2, "take off"), changed(3, "bring back")],
      ["9 on unsent"],
    ],
    [
      "a change that was refused changes nothing and says why",
      [onServer(uuid(9))],
      [{ ...changed(2, "take off"), refusal: "No." }],
      ["9 on unsent No."],
    ],
    ["a change of what is not here", [], [changed(2, "take off")], []],
  ])("%s", (_what, entries, changes, expected) => {
    expect(shown(entries, changes)).toEqual(expected);
  });

  test("forgets what was sent only once the server's log shows it", () => {
    const changes = [sent(logged(1)), sent(changed(2, "take off")), logged(3, uuid(8))];
    const ids = (entries: PracticeRecord[], after = 1000) =>
      findShown(entries, changes, 1_800_000_000_000 + after).map(({ changeId }) => changeId.at(-1));
    expect(ids([])).toEqual([]);
    expect(ids([onServer(uuid(9))])).toEqual(["1"]);
    expect(ids([onServer(uuid(9), "2027-03-01T11:00:00.000Z"), onServer(uuid(8))])).toEqual(["1", "2"]);
    // Brought back on another device: the log is believed after a while.
    expect(ids([onServer(uuid(9))], 700_000)).toEqual(["1", "2"]);
  });

  test("forgets what a later change overtook", () => {
    const changes = [sent(changed(2, "take off")), sent(changed(3, "bring back"))];
    const found = findShown([onServer(uuid(9))], changes, 1_800_000_001_000);
    expect(found.map(({ changeId }) => changeId.at(-1))).toEqual(["2", "3"]);
  });
});
