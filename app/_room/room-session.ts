import * as Y from "yjs";
import { z } from "zod";
import { listUnsaved, type UnsavedRecord } from "@/lib/room/list-unsaved";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readBreaths } from "@/lib/room/read-breaths";
import { readComments } from "@/lib/room/read-comments";
import { readCues } from "@/lib/room/read-cues";
import { readPencilledCuts, readRubbedOut } from "@/lib/room/read-pencilled-cuts";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import type { RoomMember } from "@/lib/room/room-member";
import { sayRoomProblem } from "@/lib/room/room-problem";
import { countUnsaved, noteStored, type StoredClocks } from "@/lib/room/stored-clocks";
import { writeRecord } from "@/lib/room/write-record";
import type { Refusal, Welcome } from "@/realtime/protocol";
import {
  hasSame,
  type KeptRecord,
  keptName,
  listOwn,
  mergeKept,
  readKept,
  toKeptWriting,
  writeKeptFile,
} from "./kept-writings";
import { type LocalCopy, openLocalCopy } from "./local-copy";
import { peopleIn } from "./people-in";
import { RoomLink } from "./room-link";
import { emptyRoomView, type RoomStatus, type RoomView } from "./room-view";
import type { TicketAnswer } from "./ticket-socket";

export interface RoomSessionOptions {
  readonly pieceId: string;
  readonly me: RoomMember;
  /** Where rooms lie: `roomAddress(location)`. */
  readonly address: string;
  readonly onPieceChanged: (what: string) => void;
  /** The room lets this page in, at first or again: from now on it hears what changes. */
  readonly onArrived?: () => void;
  /** The person no longer belongs to the piece; the copy of its room is gone from this browser. */
  readonly onNotAMember?: () => void;
  /** Asks why a connection came to nothing, where the browser does not say. */
  readonly askDoor?: () => Promise<TicketAnswer>;
  /** Instead of the browser's own: with a ticket (`ticketSocket`), or for programs that have none. */
  readonly WebSocketPolyfill?: typeof WebSocket;
  /** As in `LinkOptions`. */
  readonly answerMs?: number;
}

/** What came of writing something: the key of the record, or why it was not written. */
export type Written =
  | { readonly ok: true; readonly id: string }
  | { readonly ok: false; readonly sentence: string };

export interface Whereabouts {
  readonly barIndex: number | null;
  readonly editing: string | null;
}

/** So many of the longest comments, in the widest letters, stay below `maxUpdateBytes`. */
const recordsAtOnce = 15;

/** How often the door is asked at most why it does not open, in milliseconds. */
const askDoorEveryMs = 30_000;

const roomStartedAnew = "This room was started anew and does not have this.";
const noLongerAMember = "You no longer belong to this piece. This was not sent.";

const epochSchema = z.int().min(0);
const clocksSchema = z.instanceof(Uint8Array);

/** What stands in the document. */
type Standing = Pick<RoomView, "comments" | "breaths" | "cues" | "pencilledCuts" | "rubbedOut">;

function readStanding(doc: Y.Doc): Standing {
  return {
    comments: readComments(doc),
    breaths: readBreaths(doc),
    cues: readCues(doc),
    pencilledCuts: readPencilledCuts(doc),
    rubbedOut: readRubbedOut(doc),
  };
}

/**
 * One person's stay in the room of a piece: the document, its copy in this browser and the link to the server.
 * What is written here is at once in the document and the copy, and counts as unsaved until the server has
 * acknowledged it. What the server refuses is taken out of the document and kept for its writer.
 */
export class RoomSession {
  readonly #options: RoomSessionOptions;
  readonly #listeners = new Set<() => void>();
  #me: RoomMember;
  #doc: Y.Doc;
  #copy: LocalCopy | null = null;
  #link: RoomLink | null = null;
  #stored: StoredClocks = new Map();
  #kept: KeptRecord[] = [];
  /** Kept writings to be written again as soon as the server's document is here. */
  #toWriteAgain: KeptRecord[] = [];
  #epoch: number | null = null;
  #whereabouts: Whereabouts = { barIndex: null, editing: null };
  #view: RoomView = emptyRoomView;
  /** Read anew only when the document changed: others scrolling must not draw the score and the strip again. */
  #standing: Standing | null = null;
  #isRefreshDue = false;
  #isTurnedAway = false;
  #askedDoorAt = Number.NEGATIVE_INFINITY;
  /** Whether the copy in this browser is read: before that nobody can tell what of it is saved. */
  #isOpened = false;
  #isClosed = false;
  /** Opening, starting anew and closing happen one after the other. */
  #work: Promise<void>;

  constructor(options: RoomSessionOptions) {
    this.#options = options;
    this.#me = options.me;
    this.#doc = this.#newDoc();
    this.#work = this.#open();
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** The room as it stands; the same object until something changes. */
  readonly view = (): RoomView => this.#view;

  get me(): RoomMember {
    return this.#me;
  }

  /** The document, to be read. It is another one after a refusal. */
  get doc(): Y.Doc {
    return this.#doc;
  }

  write<Name extends RoomMapName>(map: Name, key: string, record: RoomRecords[Name]): Written {
    const written = writeRecord(this.#doc, map, record, this.#me);
    // One's own writing, and that it is not saved yet, shows at once.
    this.#show();
    return written.ok ? { ok: true, id: key } : { ok: false, sentence: sayRoomProblem(written.problem) };
  }

  /** Writes records together. What may not be written is left out, and said. */
  writeAll(records: readonly UnsavedRecord[]): Written {
    const problems = this.#writeInPieces(records).filter((problem) => problem !== null);
    this.#show();
    const [problem] = problems;
    if (problem === undefined) return { ok: true, id: records.at(-1)?.key ?? "" };
    const count = records.length === 1 ? "" : `${problems.length} of ${records.length} not written. `;
    return { ok: false, sentence: `${count}${problem}` };
  }

  /** Shows the others where this person looks and what they are writing in. */
  show(whereabouts: Partial<Whereabouts>): void {
    this.#whereabouts = { ...this.#whereabouts, ...whereabouts };
    this.#tellWhereabouts();
  }

  /** Lets go of something that was kept. */
  dismissKept(name: string): void {
    this.#letGo(this.#kept.filter((kept) => keptName(kept) === name));
  }

  /** Writes what was kept again, as far as it may be written; the rest stays kept. */
  writeKeptAgain(isMeant: (name: string) => boolean): Written {
    const meant = this.#shownKept().filter((kept) => isMeant(keptName(kept)));
    const problems = this.#writeInPieces(meant);
    this.#letGo(meant.filter((_, index) => problems[index] === null));
    this.#show();
    const problem = problems.find((one) => one !== null);
    return problem ? { ok: false, sentence: problem } : { ok: true, id: meant.at(-1)?.key ?? "" };
  }

  /** Everything that is kept, as the text of a JSON file. @param at the time, ISO 8601. */
  exportKept(at: string): string {
    const { userId, name } = this.#me;
    return writeKeptFile(this.#kept, { pieceId: this.#options.pieceId, userId, name, at });
  }

  /** The device is back from sleep or from a dead spot: tries the server at once. */
  wake(): void {
    this.#link?.wake();
  }

  /** Ends the stay; what is unsaved stays in the copy. */
  async close(): Promise<void> {
    this.#isClosed = true;
    this.#link?.close();
    this.#listeners.clear();
    await this.#work;
    await this.#copy?.close();
    this.#doc.destroy();
  }

  #newDoc(): Y.Doc {
    const doc = openRoomDoc();
    this.#standing = null;
    doc.on("update", () => {
      this.#standing = null;
      this.#refresh();
    });
    return doc;
  }

  async #open(): Promise<void> {
    const { pieceId } = this.#options;
    const doc = this.#doc;
    const copy = await openLocalCopy(this.#me.userId, pieceId, doc);
    this.#copy = copy;
    const [epoch, stored, oneList] = await Promise.all(
      ["epoch", "stored", "kept"].map((name) => copy.readNote(name)),
    );
    this.#epoch = epochSchema
      .nullable()
      .catch(null)
      .parse(epoch ?? null);
    const clocks = clocksSchema.safeParse(stored);
    if (clocks.success) this.#stored = noteStored(this.#stored, clocks.data);
    // "kept" is the one list in which earlier versions of this program kept everything.
    const keptInOneList = readKept(oneList);
    if (keptInOneList.length > 0) await copy.keep(keptInOneList);
    const keptBefore = await copy.readKept();
    this.#kept = mergeKept(this.#kept, keptBefore);
    this.#isOpened = true;
    if (!this.#isClosed) this.#link = this.#openLink(doc);
    this.#tellWhereabouts();
    this.#refresh();
  }

  #openLink(doc: Y.Doc): RoomLink {
    const { address, pieceId, onPieceChanged, WebSocketPolyfill, answerMs } = this.#options;
    return new RoomLink({
      address,
      pieceId,
      doc,
      epoch: this.#epoch,
      WebSocketPolyfill,
      answerMs,
      events: {
        onStored: (stateVector) => this.#noteStored(stateVector),
        onWelcome: (welcome) => this.#welcome(welcome),
        onPieceChanged,
        onRefused: (refusal) => this.#startAnewAfter(refusal),
        onOtherEpoch: () => this.#startAnewInOtherRoom(),
        onNotAMember: () => this.#leaveForGood(),
        onNotLetIn: () => void this.#askDoor(),
        onChange: () => this.#refresh(),
      },
    });
  }

  #welcome({ epoch, member }: Welcome): void {
    this.#me = member;
    if (this.#epoch === null) {
      this.#epoch = epoch;
      this.#note("epoch", epoch);
    }
    this.#link?.keepEpoch(this.#epoch);
    this.#options.onArrived?.();
    this.#refresh();
  }

  #noteStored(stateVector: Uint8Array): void {
    this.#stored = noteStored(this.#stored, stateVector);
    this.#note("stored", Y.encodeStateVector(new Map(this.#stored)));
    this.#refresh();
  }

  /** Takes everything unsaved out, keeps it, and writes again what the refusal was not about. */
  #startAnewAfter({ kind, sentence, place }: Refusal): void {
    const isMeant = ({ map, key }: KeptRecord) => place === null || (place.map === map && place.key === key);
    const unsaved = this.#listUnsaved(sentence);
    this.#startAnew(unsaved);
    // Too much at once may still pass piece by piece, and a mixed-up page from a new one.
    const canRetry = kind === "update-too-large" || kind === "not-your-page";
    this.#toWriteAgain = canRetry ? unsaved : unsaved.filter((record) => !isMeant(record));
  }

  /** A server that came back from an older copy may lack also what it had acknowledged: all own writings are kept. */
  #startAnewInOtherRoom(): void {
    const own = listOwn(this.#doc, this.#me.userId).map((record) => ({
      ...record,
      sentence: roomStartedAnew,
    }));
    const mine = mergeKept(this.#listUnsaved(roomStartedAnew), own);
    this.#startAnew(mine.map((record) => ({ ...record, isToCompare: true })));
  }

  #listUnsaved(sentence: string): KeptRecord[] {
    return listUnsaved(this.#doc, this.#stored).map((record) => ({ ...record, sentence }));
  }

  /** Goes on with a new document from the server. @param kept what of the old one is kept. */
  #startAnew(kept: readonly KeptRecord[]): void {
    const copy = this.#copy;
    const doc = this.#takeDocAway(kept);
    this.#isOpened = false;
    this.#work = this.#work.then(async () => {
      await emptyCopy(copy, this.#kept);
      await copy?.close();
      doc.destroy();
      if (!this.#isClosed) await this.#open();
    });
  }

  /** Nothing of the piece stays in this browser but what its writer could not send. */
  #leaveForGood(): void {
    const copy = this.#copy;
    const doc = this.#takeDocAway(this.#listUnsaved(noLongerAMember));
    this.#isTurnedAway = true;
    this.#work = this.#work.then(async () => {
      await emptyCopy(copy, this.#kept);
      doc.destroy();
      this.#options.onNotAMember?.();
    });
    this.#refresh();
  }

  /** @returns the old document, in whose place an empty one stands. */
  #takeDocAway(kept: readonly KeptRecord[]): Y.Doc {
    const doc = this.#doc;
    this.#keep(kept);
    this.#link?.close();
    this.#link = null;
    this.#doc = this.#newDoc();
    this.#stored = new Map();
    this.#epoch = null;
    return doc;
  }

  async #askDoor(): Promise<void> {
    const { askDoor } = this.#options;
    const now = performance.now();
    if (!askDoor || now - this.#askedDoorAt < askDoorEveryMs) return;
    this.#askedDoorAt = now;
    const link = this.#link;
    const answer = await askDoor().catch(() => null);
    if (link === null || link !== this.#link || answer === null || answer.ok) return;
    if (answer.reason === "notAMember") this.#leaveForGood();
    if (answer.reason === "signedOut") link.giveUp();
    this.#refresh();
  }

  /** @returns for each record why it was not written; null when it was. */
  #writeInPieces(records: readonly UnsavedRecord[]): (string | null)[] {
    const problems: (string | null)[] = [];
    // In pieces that the server takes, and not one by one: it takes only so many messages a second.
    for (let start = 0; start < records.length; start += recordsAtOnce) {
      this.#doc.transact(() => {
        for (const { map, record } of records.slice(start, start + recordsAtOnce)) {
          const written = writeRecord(this.#doc, map, record, this.#me);
          problems.push(written.ok ? null : sayRoomProblem(written.problem));
        }
      });
    }
    return problems;
  }

  #writeAgain(): void {
    const again = this.#toWriteAgain.splice(0);
    const problems = this.#writeInPieces(again);
    this.#letGo(again.filter((_, index) => problems[index] === null));
  }

  /** What the room that was started anew has as it was, need not be kept. */
  #compareKept(): void {
    const toCompare = this.#kept.filter(({ isToCompare }) => isToCompare);
    if (toCompare.length === 0) return;
    const there = toCompare.filter((kept) => hasSame(this.#doc, kept));
    const missing = toCompare.filter((kept) => !there.includes(kept));
    this.#letGo(there);
    this.#keep(missing.map((kept) => ({ ...kept, isToCompare: false })));
  }

  /** What is to be shown: neither what is about to be written again nor what is not compared yet. */
  #shownKept(): KeptRecord[] {
    return this.#kept.filter((kept) => !kept.isToCompare && !this.#toWriteAgain.includes(kept));
  }

  #keep(kept: readonly KeptRecord[]): void {
    this.#kept = mergeKept(kept, this.#kept);
    this.#copy?.keep(kept).catch(() => {});
    this.#refresh();
  }

  #letGo(kept: readonly KeptRecord[]): void {
    const names = new Set(kept.map(keptName));
    this.#kept = this.#kept.filter((one) => !names.has(keptName(one)));
    this.#copy?.letGo(kept).catch(() => {});
    // Where earlier versions of this program kept everything, it would come back.
    if (kept.length > 0) this.#note("kept", []);
    this.#refresh();
  }

  /** A note that cannot be kept is not worth losing the page for. */
  #note(name: string, value: unknown): void {
    this.#copy?.writeNote(name, value).catch(() => {});
  }

  #tellWhereabouts(): void {
    this.#link?.provider.awareness.setLocalState({ member: this.#me, view: this.#whereabouts });
  }

  #status(): RoomStatus {
    const link = this.#link;
    if (this.#isTurnedAway) return "refused";
    if (link === null) return "connecting";
    if (link.isTurnedAway) return "refused";
    if (link.provider.synced) return "live";
    return link.hasFailed ? "offline" : "connecting";
  }

  /** What arrives in one turn is shown together. */
  #refresh(): void {
    if (this.#isRefreshDue) return;
    this.#isRefreshDue = true;
    queueMicrotask(() => {
      this.#isRefreshDue = false;
      if (this.#isClosed || !this.#isOpened) return;
      if (this.#status() === "live") {
        this.#compareKept();
        if (this.#toWriteAgain.length > 0) this.#writeAgain();
      }
      this.#show();
    });
  }

  #show(): void {
    this.#view = this.#look();
    for (const listener of this.#listeners) listener();
  }

  #look(): RoomView {
    this.#standing ??= readStanding(this.#doc);
    return {
      ...this.#standing,
      people: this.#link ? peopleIn(this.#link.provider.awareness, this.#me) : [],
      status: this.#status(),
      unsavedCount: countUnsaved(this.#doc, this.#stored),
      unsavedKeys: new Set(listUnsaved(this.#doc, this.#stored).map(({ map, key }) => `${map} ${key}`)),
      kept: this.#shownKept().map(toKeptWriting),
    };
  }
}

/** What is kept is written down before the document that holds it is forgotten. */
async function emptyCopy(copy: LocalCopy | null, kept: readonly KeptRecord[]): Promise<void> {
  if (copy === null) return;
  await copy.keep(kept);
  await copy.forget();
  await copy.writeNote("epoch", null);
  await copy.writeNote("stored", new Uint8Array([0]));
}
