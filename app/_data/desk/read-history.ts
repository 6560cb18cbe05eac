import { namePlace, nameSpan } from "@/app/_ui/name-span";
import { toPositionTerms } from "@/lib/edition/position-terms";
import { findInChanges } from "@/lib/room/history/find-in-changes";
import type { RoomChange } from "@/lib/room/history/room-change";
import type { RoomRecordsAt } from "@/lib/room/history/room-records-at";
import { type RoomNames, sayRoomChange } from "@/lib/room/history/say-room-change";
import { type RoomMapName, roomMapNames } from "@/lib/room/room-keys";
import { type Result, success } from "@/lib/score/result";
import { readRoomHistory } from "@/lib/store/room/read-room-history";
import { readRoomRecordsAt } from "@/lib/store/room/read-room-records-at";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { readDesk } from "../read-desk";
import type { Desk } from "./desk";

/** One change, said. */
export interface HistoryRow {
  readonly sequence: number;
  readonly key: string;
  readonly at: string;
  readonly userId: string | null;
  readonly map: RoomMapName;
  readonly sentence: string;
}

/** The room as it stood after one entry of its log. */
export interface FormerRoom {
  readonly sequence: number;
  /** When that entry was stored, and what it did. */
  readonly at: string;
  readonly sentence: string;
  readonly records: RoomRecordsAt;
}

/** What the rows are chosen by. Null is everybody, or every kind. */
export interface HistoryChoice {
  readonly userId: string | null;
  readonly map: RoomMapName | null;
}

export interface HistoryView {
  readonly desk: HistoryDesk;
  readonly choice: HistoryChoice;
  /** Everybody who changed something, in the order of the people of the piece. */
  readonly writers: readonly string[];
  /** Newest first. */
  readonly rows: readonly HistoryRow[];
  /** Rows before this sequence are on the next page; null on the last. */
  readonly earlierBefore: number | null;
  readonly former: FormerRoom | null;
}

/** What the screen names people, bars and cuts by. */
export type HistoryDesk = Pick<Desk, "pieceId" | "title" | "people" | "me" | "bars" | "may"> & {
  readonly cuts: readonly { readonly id: string; readonly number: number }[];
};

/** The filters and the place of the history's address. */
export interface HistoryAsked {
  readonly by?: unknown;
  readonly kind?: unknown;
  readonly before?: unknown;
  readonly at?: unknown;
}

const rowsAPage = 100;

/**
 * What changed in the room of a piece, newest first, and the room as it stood at one moment of it.
 *
 * @param asked as the address has it; anything unknown in it counts as not asked.
 */
export async function readHistory(
  viewer: Viewer,
  pieceId: string,
  asked: HistoryAsked,
): Promise<Result<HistoryView, StoreProblem>> {
  const [desk, history] = await Promise.all([readDesk(viewer, pieceId), readRoomHistory(viewer, pieceId)]);
  if (!desk.ok) return desk;
  if (!history.ok) return history;
  const about = toHistoryDesk(desk.value);
  const { changes } = history.value;
  const names = namesFor(about, changes);
  const writers = about.people
    .map(({ userId }) => userId)
    .filter((id) => changes.some((one) => one.userId === id));
  const choice = readChoice(asked, writers);
  const chosen = changes.filter(({ userId, map }) => isChosen(choice, userId, map));
  const before = readNumber(asked.before);
  const upTo = before === null ? chosen : chosen.filter(({ sequence }) => sequence < before);
  const page = lastPage(upTo);
  const former = await readFormer(viewer, pieceId, { changes, names, asked });
  if (!former.ok) return former;
  return success({
    ...{ desk: about, choice, writers },
    rows: page.map((change) => toRow(change, names)).reverse(),
    earlierBefore: page.length < upTo.length ? (page[0]?.sequence ?? null) : null,
    former: former.value,
  });
}

/** The newest rows; an entry of the log is never cut in two, so that the next page begins where this one ends. */
function lastPage(changes: readonly RoomChange[]): readonly RoomChange[] {
  const first = changes.at(-rowsAPage)?.sequence;
  return first === undefined ? changes : changes.filter(({ sequence }) => sequence >= first);
}

function toHistoryDesk({ pieceId, title, people, me, bars, may, cuts }: Desk): HistoryDesk {
  return {
    ...{ pieceId, title, people, me, may },
    // What the solo plays is of no use here, and long.
    bars: bars.map((bar) => ({ ...bar, solo: "" })),
    cuts: cuts.map(({ id, number }) => ({ id, number })),
  };
}

function readChoice(asked: HistoryAsked, writers: readonly string[]): HistoryChoice {
  return {
    userId: writers.find((userId) => userId === asked.by) ?? null,
    map: roomMapNames.find((map) => map === asked.kind) ?? null,
  };
}

function isChosen(choice: HistoryChoice, userId: string | null, map: RoomMapName): boolean {
  return (choice.userId === null || choice.userId === userId) && (choice.map === null || choice.map === map);
}

function readNumber(text: unknown): number | null {
  return typeof text === "string" && /^\d{1,9}$/.test(text) ? Number(text) : null;
}

interface Told {
  readonly changes: readonly RoomChange[];
  readonly names: RoomNames;
  readonly asked: HistoryAsked;
}

async function readFormer(
  viewer: Viewer,
  pieceId: string,
  { changes, names, asked }: Told,
): Promise<Result<FormerRoom | null, StoreProblem>> {
  const sequence = readNumber(asked.at);
  const last = changes.findLast((change) => change.sequence === sequence);
  if (sequence === null || !last) return success(null);
  const records = await readRoomRecordsAt(viewer, pieceId, sequence);
  if (!records.ok) return records;
  return success({ sequence, at: last.at, sentence: sayRoomChange(last, names), records: records.value });
}

function toRow(change: RoomChange, names: RoomNames): HistoryRow {
  const { sequence, key, at, userId, map } = change;
  return { sequence, key, at, userId, map, sentence: sayRoomChange(change, names) };
}

/** How the people, bars and cuts of a piece are called. */
function namesFor({ people, bars, cuts }: HistoryDesk, changes: readonly RoomChange[]): RoomNames {
  return {
    nameOf: (userId) => {
      const name = people.find((person) => person.userId === userId)?.name ?? "Someone who left";
      return name.split(" ")[0] ?? name;
    },
    sayBars: (from, to) => nameSpan(bars, toPositionTerms(from), toPositionTerms(to)),
    sayPlace: (at) => namePlace(bars, toPositionTerms(at)),
    sayProposal: (id) => {
      const number = cuts.find((cut) => cut.id === id)?.number;
      return number === undefined ? "a cut" : `cut ${number}`;
    },
    ...findInChanges(changes),
  };
}
