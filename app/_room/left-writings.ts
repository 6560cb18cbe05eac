import { z } from "zod";
import { listUnsaved } from "@/lib/room/list-unsaved";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { noteStored } from "@/lib/room/stored-clocks";
import { type CopyPlace, copyName, listCopies } from "./copy-name";
import { isOwn, type KeptRecord, mergeKept, toKeptWriting, writeKeptFile } from "./kept-writings";
import { type LocalCopy, openLocalCopy } from "./local-copy";
import type { KeptWriting } from "./room-view";

/** What a person wrote in one piece that is in this browser and nowhere else. */
export interface LeftWritings {
  readonly pieceId: string;
  readonly writings: readonly KeptWriting[];
  /** The same as the text of a file. */
  readonly file: string;
}

const notSent = "This was not sent.";
const clocksSchema = z.instanceof(Uint8Array);

/** Everything that a person wrote in this browser and that the server does not have, piece by piece. */
export async function findLeftWritings(userId: string, name: string, now: Date): Promise<LeftWritings[]> {
  const places = (await listCopies()).filter((place) => place.userId === userId);
  const found: LeftWritings[] = [];
  for (const place of places) {
    const left = await withCopy(place, (_copy, left) => Promise.resolve(left));
    if (left.length === 0) continue;
    const file = writeKeptFile(left, { ...place, name, at: now.toISOString() });
    found.push({ pieceId: place.pieceId, writings: left.map(toKeptWriting), file });
  }
  return found;
}

/** Lets go of the copies of rooms that hold nothing unsaved. @param isMeant whose. */
export async function clearCopies(isMeant: (place: CopyPlace) => boolean): Promise<void> {
  for (const place of (await listCopies()).filter(isMeant)) {
    const isEmpty = await withCopy(place, async (copy, left) => {
      if (left.length > 0) return false;
      // A page that has it open holds up the deletion, but not this.
      await copy.forget();
      return true;
    });
    if (isEmpty) indexedDB.deleteDatabase(copyName(place));
  }
}

/** Lets go of a copy with everything in it. */
export async function letGoOfCopy(place: CopyPlace): Promise<void> {
  await withCopy(place, async (copy) => {
    await copy.letGo(await copy.readKept());
    await copy.forget();
  });
  indexedDB.deleteDatabase(copyName(place));
}

async function withCopy<T>(
  place: CopyPlace,
  use: (copy: LocalCopy, left: readonly KeptRecord[]) => Promise<T>,
): Promise<T> {
  const doc = openRoomDoc();
  const copy = await openLocalCopy(place.userId, place.pieceId, doc);
  try {
    const clocks = clocksSchema.safeParse(await copy.readNote("stored"));
    const stored = clocks.success ? noteStored(new Map(), clocks.data) : new Map<number, number>();
    // Of the others' writings some may not be noted as stored yet; they come from the server.
    const unsaved = listUnsaved(doc, stored).filter((record) => isOwn(record, place.userId));
    const left = unsaved.map((record) => ({ ...record, sentence: notSent }));
    return await use(copy, mergeKept(await copy.readKept(), left));
  } finally {
    await copy.close();
    doc.destroy();
  }
}
