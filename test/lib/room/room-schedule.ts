import * as Y from "yjs";
import type { CommentRecord } from "@/lib/room/comment-record";
import { findHeads } from "@/lib/room/find-heads";
import { findRestoration } from "@/lib/room/history/find-restoration";
import type { RoomChange } from "@/lib/room/history/room-change";
import type { RoomHistoryEntry } from "@/lib/room/history/room-history-entry";
import { roomRecordsAt } from "@/lib/room/history/room-records-at";
import { judgeUpdate } from "@/lib/room/judge-update";
import { mergeUpdates } from "@/lib/room/merge-updates";
import { copyRoomDoc, openRoomDoc } from "@/lib/room/open-room-doc";
import type { PencilledTerms } from "@/lib/room/pencilled-versions";
import { findRecord, readRecords } from "@/lib/room/read-records";
import { type RoomMapName, roomMapNames } from "@/lib/room/room-keys";
import type { RoomMember } from "@/lib/room/room-member";
import { sortKeys } from "@/lib/room/sort-keys";
import { writeOver } from "@/lib/room/write-over";
import { writeRecord } from "@/lib/room/write-record";
import { coach, pianist, reader, soloist } from "@/test/lib/room/room-members";

/*
 * Random schedules of what the pages of one room and its server do. A schedule is a list of numbers: each is read
 * as one operation, so that a schedule costs little to make, is told in one line and shrinks to a smaller one.
 */

/** Who sits at which page; the last one is the pianist's second device. */
const people: readonly RoomMember[] = [pianist, soloist, coach, pianist];

const start = Date.parse("2026-11-25T08:00:00.000Z");
const end = new Date("2026-11-25T12:00:00.000Z");

/** One person's page: a document, what it wrote and has not seen stored, and what was sent before. */
interface Page {
  readonly member: RoomMember;
  doc: Y.Doc;
  unsent: Uint8Array[];
  sent: Uint8Array[];
}

/** Thrown where a room did something it must not. */
export class BrokenRoom extends Error {}

/** The server's side, as realtime/ does it: judge, append to the log, take in. */
class ScheduledServer {
  readonly log: RoomHistoryEntry[] = [];
  doc = openRoomDoc();
  readonly #owners = new Map<number, string>();
  /** Equal to the document; made when it is needed. */
  #scratch: Y.Doc | null = null;

  /** @returns "stored", "known", or why it was refused. */
  take(update: Uint8Array, member: RoomMember): string {
    const ownerOf = (client: number) => this.#owners.get(client) ?? null;
    this.#scratch ??= copyRoomDoc(this.doc);
    const judged = judgeUpdate(this.doc, this.#scratch, update, member, ownerOf, end);
    if (!judged.ok) {
      this.#scratch = null;
      return judged.problem.kind;
    }
    const { addition } = judged.value;
    if (addition === null) return "known";
    this.#append(addition, member.userId);
    return "stored";
  }

  /** Everything from the log, half of it by way of a snapshot. */
  restart(): void {
    const updates = this.log.map(({ update }) => update);
    const half = updates.length >> 1;
    this.doc = openRoomDoc();
    this.doc.transact(() => {
      if (half > 0) Y.applyUpdate(this.doc, mergeUpdates(updates.slice(0, half)));
      for (const update of updates.slice(half)) Y.applyUpdate(this.doc, update);
    });
    this.#scratch = null;
  }

  #append(update: Uint8Array, userId: string): void {
    const sequence = this.log.length + 1;
    this.log.push({ sequence, epoch: 1, update, userId, at: new Date(start + sequence * 1_000) });
    Y.applyUpdate(this.doc, update);
    for (const client of Y.parseUpdateMeta(update).to.keys()) this.#owners.set(client, userId);
  }
}

/** What one operation's number says beside its kind. */
interface Dice {
  readonly page: Page;
  /** One of five things of a kind. */
  readonly key: number;
  /** 0 to 255. */
  readonly detail: number;
}

export class RoomSchedule {
  readonly server = new ScheduledServer();
  readonly pages: readonly Page[];
  /** Ids of all that was written at some page. */
  readonly #written = new Map<RoomMapName, Set<string>>(roomMapNames.map((name) => [name, new Set()]));
  #steps = 0;
  #clients = 0;

  /** @param seed decides how many pages there are and how their clients are numbered, hence who wins. */
  constructor(private readonly seed: number) {
    const count = 2 + (seed % 3);
    this.pages = people.slice(0, count).map((member) => {
      const page: Page = { member, doc: openRoomDoc(), unsent: [], sent: [] };
      this.#openPage(page, null);
      return page;
    });
  }

  /** Does what one number says. */
  step(code: number): void {
    this.#steps += 1;
    const page = this.pages[(code >>> 5) % this.pages.length] as Page;
    const dice: Dice = { page, key: (code >>> 8) % 5, detail: (code >>> 12) & 255 };
    const operation = operations[(code & 31) % operations.length];
    operation?.(this, dice);
  }

  /** Everybody comes back, and stays until the last one has sent what they wrote. */
  settle(): void {
    for (const page of this.pages) this.#sendAll(page);
    for (const page of this.pages) this.#receiveAll(page);
  }

  /** What was written somewhere and is not in the room. */
  listLost(): string[] {
    return roomMapNames.flatMap((map) =>
      [...(this.#written.get(map) ?? [])].filter((key) => !this.server.doc.getMap(map).has(key)),
    );
  }

  /** A page comes back: each sends what the other lacks. */
  meet(page: Page): void {
    this.#sendAll(page);
    this.#receiveAll(page);
  }

  /** Some of what a page wrote gets through; what depends on something that did not is asked for again. */
  send({ page, detail }: Dice): void {
    const [skipped, again] = [detail & 1 && page.unsent.length > 1, detail & 2];
    const repeated = again ? page.sent[(detail >>> 2) % (page.sent.length || 1)] : undefined;
    if (repeated && this.server.take(repeated, page.member) !== "known")
      throw new BrokenRoom("what is stored is not known");
    const [first, second] = page.unsent;
    const update = skipped ? second : first;
    if (!update) return;
    const answer = this.server.take(update, page.member);
    if (answer === "incomplete-update") return;
    if (answer !== "stored" && answer !== "known") throw new BrokenRoom(`refused: ${answer}`);
    page.unsent.splice(skipped ? 1 : 0, 1);
    page.sent.push(update);
  }

  /** Some entries of the log arrive, in any order, some twice. */
  receive({ page, detail }: Dice): void {
    const { log } = this.server;
    for (let turn = 0; turn <= (detail & 3); turn += 1) {
      const entry = log[(detail + turn * 7) % (log.length || 1)];
      if (entry) Y.applyUpdate(page.doc, entry.update, this.server);
    }
  }

  /** The browser is opened again: the same content, another client. */
  restartPage({ page }: Dice): void {
    this.#openPage(page, Y.encodeStateAsUpdate(page.doc));
  }

  /** Something that the server must not take, made by no program of ours. */
  forge({ page, key, detail }: Dice): void {
    const doc = openRoomDoc();
    doc.clientID = this.#newClient();
    const forged = forgeries[detail % forgeries.length];
    const member = forged?.(doc, page, key);
    if (!member) return;
    const answer = this.server.take(Y.encodeStateAsUpdate(doc), member);
    if (answer === "stored" || answer === "known") throw new BrokenRoom(`took a forgery (${detail})`);
  }

  restore({ page, detail }: Dice): void {
    const then = roomRecordsAt(this.server.log, detail % (this.server.log.length + 1));
    const { writes } = findRestoration(page.doc, then, page.member, this.#now(), () => this.#newId(page));
    page.doc.transact(() => {
      for (const { map, key, record } of writes) {
        const written = writeRecord(page.doc, map, record, page.member, end);
        if (!written.ok) throw new BrokenRoom(`cannot be restored: ${written.problem.kind}`);
        this.#written.get(map)?.add(key);
      }
    });
  }

  writeComment({ page, key, detail }: Dice): void {
    const id = `c-${page.member.userId}-${key}`;
    const old = findRecord(page.doc, "comments", id);
    const text = `word ${detail}`;
    const editedAt = this.#now().toISOString();
    this.#write(page, "comments", old ? { ...old, text, editedAt } : newComment(id, page.member, text));
  }

  deleteComment({ page, key, detail }: Dice): void {
    const old = findRecord(page.doc, "comments", `c-${page.member.userId}-${key}`);
    const deletedAt = detail & 1 ? null : this.#now().toISOString();
    if (old) this.#write(page, "comments", { ...old, deletedAt });
  }

  resolve({ page, key, detail }: Dice): void {
    const author = detail & 2 ? pianist : soloist;
    const commentId = `c-${author.userId}-${key}`;
    const at = this.#now().toISOString();
    this.#write(page, "resolutions", {
      commentId,
      byId: page.member.userId,
      at,
      isResolved: (detail & 1) === 0,
    });
  }

  breathe({ page, key, detail }: Dice): void {
    if (page.member.role === "coach") return;
    const id = `b-${page.member.userId}-${key}`;
    const at = { barIndex: detail & 15, offset: detail & 16 ? "1/2" : "0" };
    const deletedAt = detail & 32 ? this.#now().toISOString() : null;
    this.#write(page, "breaths", { id, authorId: page.member.userId, at, deletedAt });
  }

  /** Writes, rewords, moves or takes off a cue of one's own. */
  cue({ page, key, detail }: Dice): void {
    if (page.member.role === "coach") return;
    const id = `k-${page.member.userId}-${key}`;
    const at = { barIndex: detail & 15, offset: "0" };
    const text = detail & 16 ? "Fl." : "Ob. solo";
    const deletedAt = detail & 32 ? this.#now().toISOString() : null;
    this.#write(page, "cues", { id, authorId: page.member.userId, at, text, deletedAt });
  }

  /** Says that one's own comment is to be printed, or no longer. */
  markForPrint({ page, key, detail }: Dice): void {
    const old = findRecord(page.doc, "comments", `c-${page.member.userId}-${key}`);
    if (old?.about.kind === "span") this.#write(page, "comments", { ...old, print: (detail & 1) === 0 });
  }

  /** Pencils in, moves, rubs out or brings back, over all that stands at this page. */
  pencil({ page, key, detail }: Dice): void {
    const isRubbedOut = (detail & 7) === 0;
    const barIndex = detail >>> 3;
    const terms = { from: { barIndex, offset: "0" }, to: { barIndex: barIndex + 1, offset: "0" } };
    this.#writeOver(page, `p${key % 3}`, { ...terms, isRubbedOut });
  }

  /** Takes one of the versions that stand. */
  settleCut({ page, key, detail }: Dice): void {
    const cutId = `p${key % 3}`;
    const heads = findHeads(
      readRecords(page.doc, "pencilledCuts").filter((record) => record.cutId === cutId),
    );
    const chosen = heads[detail % (heads.length || 1)];
    if (chosen && heads.length > 1) this.#writeOver(page, cutId, chosen);
  }

  #sendAll(page: Page): void {
    const missing = Y.encodeStateAsUpdate(page.doc, Y.encodeStateVector(this.server.doc));
    const answer = this.server.take(missing, page.member);
    if (answer !== "stored" && answer !== "known") throw new BrokenRoom(`refused: ${answer}`);
    page.sent.push(...page.unsent.splice(0));
  }

  #receiveAll(page: Page): void {
    const missing = Y.encodeStateAsUpdate(this.server.doc, Y.encodeStateVector(page.doc));
    Y.applyUpdate(page.doc, missing, this.server);
  }

  #writeOver(page: Page, cutId: string, terms: PencilledTerms): void {
    if (page.member.role === "coach") return;
    const writing = {
      authorId: page.member.userId,
      at: this.#now().toISOString(),
      newId: () => this.#newId(page),
    };
    for (const record of writeOver(page.doc, cutId, terms, writing))
      this.#write(page, "pencilledCuts", record);
  }

  #write(page: Page, map: RoomMapName, record: Parameters<typeof writeRecord>[2]): void {
    const written = writeRecord(page.doc, map, record, page.member, end);
    if (!written.ok) throw new BrokenRoom(`not written: ${written.problem.kind}`);
    this.#written.get(map)?.add("commentId" in record ? record.commentId : record.id);
  }

  #openPage(page: Page, content: Uint8Array | null): void {
    page.doc.destroy();
    page.doc = openRoomDoc();
    page.doc.clientID = this.#newClient();
    if (content) Y.applyUpdate(page.doc, content);
    page.doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== this.server) page.unsent.push(update);
    });
  }

  /** Spread over all numbers, so that a later client may come before or after an earlier one. */
  #newClient(): number {
    this.#clients += 1;
    return Math.imul(this.seed + this.#clients, 0x9e3779b1) >>> 0;
  }

  #newId(page: Page): string {
    this.#steps += 1;
    return `v${this.#steps}-${page.member.userId}`;
  }

  #now(): Date {
    return new Date(start + this.#steps * 1_000);
  }
}

type Operation = (schedule: RoomSchedule, dice: Dice) => void;

/** The more often it stands here, the more often it happens. */
const operations: readonly Operation[] = [
  (schedule, dice) => schedule.writeComment(dice),
  (schedule, dice) => schedule.writeComment(dice),
  (schedule, dice) => schedule.writeComment(dice),
  (schedule, dice) => schedule.deleteComment(dice),
  (schedule, dice) => schedule.deleteComment(dice),
  (schedule, dice) => schedule.resolve(dice),
  (schedule, dice) => schedule.resolve(dice),
  (schedule, dice) => schedule.resolve(dice),
  (schedule, dice) => schedule.breathe(dice),
  (schedule, dice) => schedule.cue(dice),
  (schedule, dice) => schedule.markForPrint(dice),
  (schedule, dice) => schedule.breathe(dice),
  (schedule, dice) => schedule.pencil(dice),
  (schedule, dice) => schedule.pencil(dice),
  (schedule, dice) => schedule.pencil(dice),
  (schedule, dice) => schedule.pencil(dice),
  (schedule, dice) => schedule.settleCut(dice),
  (schedule, dice) => schedule.settleCut(dice),
  (schedule, dice) => schedule.send(dice),
  (schedule, dice) => schedule.send(dice),
  (schedule, dice) => schedule.send(dice),
  (schedule, dice) => schedule.receive(dice),
  (schedule, dice) => schedule.receive(dice),
  (schedule, dice) => schedule.meet(dice.page),
  (schedule, dice) => schedule.meet(dice.page),
  (schedule, dice) => schedule.restartPage(dice),
  (schedule, dice) => schedule.forge(dice),
  (schedule, dice) => schedule.restore(dice),
  (schedule) => schedule.server.restart(),
];

/** Each writes something forbidden and names who sends it; null when there is nothing to forge here. */
const forgeries: readonly ((doc: Y.Doc, page: Page, key: number) => RoomMember | null)[] = [
  (doc, _page, key) => {
    doc.getMap("comments").set(`c-ines-${key}`, newComment(`c-ines-${key}`, pianist, "forged"));
    return soloist;
  },
  (doc, _page, key) => {
    doc.getMap("comments").set(`x${key}`, newComment(`x${key}`, reader, "forged"));
    return reader;
  },
  (doc) => {
    doc.getMap("pencilledCuts").set("v0", { id: "v0", cutId: "p0", authorId: coach.userId });
    return coach;
  },
  (doc) => {
    doc.getMap("proposals").set("p", {});
    return pianist;
  },
  (doc, page) => {
    const [version] = readRecords(page.doc, "pencilledCuts");
    if (!version) return null;
    doc.getMap("pencilledCuts").set(version.id, { ...version, isRubbedOut: !version.isRubbedOut });
    return version.authorId === pianist.userId ? soloist : pianist;
  },
];

function newComment(id: string, { userId }: RoomMember, text: string): CommentRecord {
  const about = { kind: "proposal" as const, proposalId: "p1" };
  const createdAt = "2026-11-25T08:00:00.000Z";
  const rest = { about, replyTo: null, deletedAt: null, print: false as const };
  return { id, authorId: userId, createdAt, text, ...rest };
}

/** What stands after a room's changes, written as `roomAsJson` writes a document. */
export function changesAsJson(changes: readonly RoomChange[]): string {
  const maps = new Map<RoomMapName, Map<string, unknown>>(roomMapNames.map((name) => [name, new Map()]));
  for (const { map, key, after, isOvertaken } of changes) {
    if (isOvertaken) continue;
    if (after === null) maps.get(map)?.delete(key);
    else maps.get(map)?.set(key, after);
  }
  const listed = [...maps].map(([name, records]) => {
    const inOrder = [...records].sort(([a], [b]) => (a < b ? -1 : 1));
    return [name, inOrder.map(([key, record]) => [key, sortKeys(record)])];
  });
  return JSON.stringify(Object.fromEntries(listed));
}
