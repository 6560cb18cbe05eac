import { randomBytes, randomInt, randomUUID } from "node:crypto";
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import {
  messageTypes,
  syncTypes,
  writePresence,
  writeSyncStep1,
  writeSyncStep2,
  writeUpdate,
} from "@/realtime/protocol";
import type { RoomGuest } from "./room-people";

/** Makes one frame of a kind that no room may take, as this person would send it. */
export type BadFrame = (sender: RoomGuest, victim: RoomGuest) => Uint8Array | string;

const later = new Date(Date.now() + 7 * 24 * 60 * 60 * 1000).toISOString();
const at = { barIndex: 3, offset: "1/2" };

function breath(authorId: string, fields: object = {}) {
  return { id: randomUUID(), authorId, at, deletedAt: null, ...fields };
}

/** An update of a page that did `act`. */
function updateOf(act: (doc: Y.Doc) => void): Uint8Array {
  const doc = openRoomDoc();
  doc.transact(() => act(doc));
  const update = Y.encodeStateAsUpdate(doc);
  doc.destroy();
  return update;
}

function markBreath(record: { id: string }): Uint8Array {
  return updateOf((doc) => doc.getMap("breaths").set(record.id, record));
}

/** A sync message whose body says that it is longer than it is. */
function announce(length: number): Uint8Array {
  return encoding.encode((encoder) => {
    for (const number of [messageTypes.sync, syncTypes.update, length])
      encoding.writeVarUint(encoder, number);
    encoding.writeUint8Array(encoder, randomBytes(16));
  });
}

/** Yjs update v1 of one client that claims to have made and thrown away this many writes. */
function writesThrownAway(clock: number, count: number): Uint8Array {
  return encoding.encode((encoder) => {
    for (const number of [1, 1, randomInt(2 ** 32), clock]) encoding.writeVarUint(encoder, number);
    encoding.writeUint8(encoder, 0);
    encoding.writeVarUint(encoder, count);
    encoding.writeVarUint(encoder, 0);
  });
}

function bend(bytes: Uint8Array): Uint8Array {
  const bent = bytes.slice();
  for (let index = 0; index < 3; index += 1) bent[randomInt(bent.length)] = randomInt(256);
  return bent;
}

export const badFrames: Readonly<Record<string, BadFrame>> = {
  "text frame": () => "hello",
  "empty frame": () => new Uint8Array(),
  "unknown type": () => Uint8Array.of(9 + randomInt(110), 1, 2, 3),
  "random bytes": () => randomBytes(1 + randomInt(200)),
  "truncated message": (sender) => {
    const whole = writeUpdate(markBreath(breath(sender.userId)));
    return whole.subarray(0, 1 + randomInt(whole.length - 1));
  },
  "truncated update": (sender) => {
    const update = markBreath(breath(sender.userId));
    return writeUpdate(update.subarray(0, randomInt(update.length - 1)));
  },
  "bent update in another's name": (_sender, victim) => writeUpdate(bend(markBreath(breath(victim.userId)))),
  "huge length announced": () => announce(2 ** 40 + randomInt(1000)),
  "sync step 1 of garbage": () => writeSyncStep1(randomBytes(40)),
  "sync step 2 of garbage": () => writeSyncStep2(randomBytes(80)),
  "map of another name": () => writeUpdate(updateOf((doc) => doc.getMap("agreement").set("x", true))),
  "list and text": () =>
    writeUpdate(
      updateOf((doc) => {
        doc.getArray("breaths2").push([1]);
        doc.getText("notes").insert(0, "x");
      }),
    ),
  "nested map": () =>
    writeUpdate(updateOf((doc) => doc.getMap("breaths").set(randomUUID(), new Y.Map([["id", "x"]])))),
  "nested document": () =>
    writeUpdate(updateOf((doc) => doc.getMap("breaths").set(randomUUID(), new Y.Doc()))),
  "another's name": (_sender, victim) => writeUpdate(markBreath(breath(victim.userId))),
  "record with more in it": (sender) => writeUpdate(markBreath(breath(sender.userId, { isAgreed: true }))),
  "record under another name": (sender) =>
    writeUpdate(updateOf((doc) => doc.getMap("breaths").set(randomUUID(), breath(sender.userId)))),
  "a time to come": (sender) => writeUpdate(markBreath(breath(sender.userId, { deletedAt: later }))),
  "clocks beyond counting": () => writeUpdate(writesThrownAway(0, 2 ** 31 + 1 + randomInt(1000))),
  "clocks that rest on nothing": () => writeUpdate(writesThrownAway(1_000, 5)),
  "writes of no record": () => writeUpdate(writesThrownAway(0, 3)),
  "presence of garbage": () => writePresence(randomBytes(60)),
  "presence too large": () => writePresence(randomBytes(20 * 1024)),
  "update too large": () => writeUpdate(randomBytes(300 * 1024)),
};

/** Whatever a reader writes, however well formed. */
export const readersFrame: BadFrame = (sender) => writeUpdate(markBreath(breath(sender.userId)));

/** Larger than any frame may be. */
export const oversizeFrame: BadFrame = () => randomBytes(1024 * 1024 + 1);

/** Well formed and allowed, were it not for how many of them come at once. */
export const floodFrame: BadFrame = () => Uint8Array.of(messageTypes.askPresence);
