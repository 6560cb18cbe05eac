import * as Y from "yjs";
import type { DatedRecord } from "./dated-record";
import { openRoomDoc } from "./open-room-doc";
import { keyOf } from "./room-keys";

/** An entry for the log of a room. */
export interface WrittenEntry {
  /** A Yjs update (v1). */
  readonly update: Uint8Array;
  /** Who wrote the record. */
  readonly userId: string;
  readonly at: string;
}

/**
 * The log of a new room in which these records were written by their authors, each at its time: who and when are told by
 * it as by any other. Each person writes with a page of their own, as pages do.
 *
 * @param records each under another key.
 * @returns in the order of time.
 */
export function writeAsPeople(records: readonly DatedRecord[]): WrittenEntry[] {
  const pages = new Map<string, Y.Doc>();
  const entries = [...records].sort(compareTimes).map((dated) => {
    const userId = writerOf(dated.record);
    const page = pages.get(userId) ?? openRoomDoc();
    pages.set(userId, page);
    return { update: write(page, dated), userId, at: dated.at };
  });
  for (const page of pages.values()) page.destroy();
  return entries;
}

function write(page: Y.Doc, { map, record }: DatedRecord): Uint8Array {
  const before = Y.encodeStateVector(page);
  // Map and record belong together in a dated record.
  page.getMap(map).set(keyOf(map, record as never), record);
  return Y.encodeStateAsUpdate(page, before);
}

function writerOf(record: DatedRecord["record"]): string {
  return "byId" in record ? record.byId : record.authorId;
}

const compareTimes = (a: DatedRecord, b: DatedRecord) => Number(a.at > b.at) - Number(a.at < b.at);
