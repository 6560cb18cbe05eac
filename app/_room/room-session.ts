import * as Y from "yjs";
import { listUnsaved } from "@/lib/room/list-unsaved";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readBreaths } from "@/lib/room/read-breaths";
import { readComments } from "@/lib/room/read-comments";
import type { RoomMapName, RoomRecords } from "@/lib/room/room-keys";
import type { RoomMember } from "@/lib/room/room-member";
import { sayRoomProblem } from "@/lib/room/room-problem";
import { countUnsaved, noteStored, type StoredClocks } from "@/lib/room/stored-clocks";
import { writeRecord } from "@/lib/room/write-record";
import type { Refusal, Welcome } from "@/realtime/protocol";
import { type KeptRecord, mergeKept, readKept, toKeptWriting } from "./kept-writings";
import { type LocalCopy, openLocalCopy } from "./local-copy";
import { peopleIn } from "./people-in";
import { RoomLink } from "./room-link";
import { emptyRoomView, type RoomStatus, type RoomView } from "./room-view";

export interface RoomSessionOptions {
  readonly pieceId: string;
  readonly me: RoomMember;
  /** Where rooms lie: `roomAddress(location)`. */
  readonly address: string;
  readonly onPieceChanged: (what: string) => void;
  /** For programs that have no WebSocket of their own. */
  readonly WebSocketPolyfill?: typeof WebSocket;
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

const roomStartedAnew = "This room was started anew. What you had not sent is kept here.";

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
  #isRefreshDue = false;
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

  /** Shows the others where this person looks and what they are writing in. */
  show(whereabouts: Partial<Whereabouts>): void {
    this.#whereabouts = { ...this.#whereabouts, ...whereabouts };
    this.#tellWhereabouts();
  }

  /** Lets go of something that was refused. */
  dismissKept(key: string): void {
    this.#keep(this.#kept.filter((kept) => kept.key !== key));
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
    doc.on("update", () => this.#refresh());
    return doc;
  }

  async #open(): Promise<void> {
    const { pieceId } = this.#options;
    const doc = this.#doc;
    const copy = await openLocalCopy(this.#me.userId, pieceId, doc);
    this.#copy = copy;
    const [epoch, stored, kept] = await Promise.all(
      ["epoch", "stored", "kept"].map((name) => copy.readNote(name)),
    );
    if (typeof epoch === "number") this.#epoch = epoch;
    if (stored instanceof Uint8Array) this.#stored = noteStored(this.#stored, stored);
    this.#kept = mergeKept(this.#kept, readKept(kept));
    this.#isOpened = true;
    if (!this.#isClosed) this.#link = this.#openLink(doc);
    this.#tellWhereabouts();
    this.#refresh();
  }

  #openLink(doc: Y.Doc): RoomLink {
    const { address, pieceId, onPieceChanged, WebSocketPolyfill } = this.#options;
    return new RoomLink({
      address,
      pieceId,
      doc,
      epoch: this.#epoch,
      WebSocketPolyfill,
      events: {
        onStored: (stateVector) => this.#noteStored(stateVector),
        onWelcome: (welcome) => this.#welcome(welcome),
        onPieceChanged,
        onRefused: (refusal) => this.#startAnewAfter(refusal),
        onOtherEpoch: () => this.#startAnew(roomStartedAnew),
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
    const unsaved = this.#startAnew(sentence);
    // Too much at once may still pass piece by piece, and a mixed-up page from a new one.
    const canRetry = kind === "update-too-large" || kind === "not-your-page";
    this.#toWriteAgain = canRetry ? unsaved : unsaved.filter((record) => !isMeant(record));
  }

  /** Goes on with a new document from the server. @returns what was unsaved in the old one, now kept. */
  #startAnew(sentence: string): KeptRecord[] {
    const [doc, copy] = [this.#doc, this.#copy];
    const unsaved = listUnsaved(doc, this.#stored).map((record) => ({ ...record, sentence }));
    this.#keep(mergeKept(unsaved, this.#kept));
    this.#link?.close();
    this.#link = null;
    this.#isOpened = false;
    this.#doc = this.#newDoc();
    this.#stored = new Map();
    this.#epoch = null;
    this.#work = this.#work.then(async () => {
      await emptyCopy(copy, this.#kept);
      doc.destroy();
      if (!this.#isClosed) await this.#open();
    });
    return unsaved;
  }

  /** In pieces that the server takes, and not one by one: it takes only so many messages a second. */
  #writeAgain(): void {
    const again = this.#toWriteAgain.splice(0);
    const written = new Set<KeptRecord>();
    for (let start = 0; start < again.length; start += recordsAtOnce) {
      const piece = again.slice(start, start + recordsAtOnce);
      this.#doc.transact(() => {
        for (const kept of piece)
          if (writeRecord(this.#doc, kept.map, kept.record, this.#me).ok) written.add(kept);
      });
    }
    this.#keep(this.#kept.filter((kept) => !written.has(kept)));
  }

  #keep(kept: KeptRecord[]): void {
    this.#kept = kept;
    this.#note("kept", kept);
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
      if (this.#toWriteAgain.length > 0 && this.#status() === "live") this.#writeAgain();
      this.#show();
    });
  }

  #show(): void {
    this.#view = this.#look();
    for (const listener of this.#listeners) listener();
  }

  #look(): RoomView {
    return {
      comments: readComments(this.#doc),
      breaths: readBreaths(this.#doc),
      people: this.#link ? peopleIn(this.#link.provider.awareness, this.#me) : [],
      status: this.#status(),
      unsavedCount: countUnsaved(this.#doc, this.#stored),
      kept: this.#kept.filter((kept) => !this.#toWriteAgain.includes(kept)).map(toKeptWriting),
    };
  }
}

/** What is kept is written down before the document that holds it is forgotten. */
async function emptyCopy(copy: LocalCopy | null, kept: readonly KeptRecord[]): Promise<void> {
  if (copy === null) return;
  await copy.writeNote("kept", kept);
  await copy.forget();
  await copy.writeNote("epoch", null);
  await copy.writeNote("stored", new Uint8Array([0]));
  await copy.close();
}
