import { uuidv4 } from "lib0/random";
import type { PencilledTerms } from "@/lib/room/pencilled-versions";
import { toPositionRecord } from "@/lib/room/position-record";
import { readPencilledCuts, readRubbedOut } from "@/lib/room/read-pencilled-cuts";
import { findRecord } from "@/lib/room/read-records";
import { writeOver } from "@/lib/room/write-over";
import type { Position } from "@/lib/score/position";
import type { RoomSession, Written } from "./room-session";

/** What a player does with cuts in pencil. `Written.id` is the cut's, not the version's. */
export interface PencilActions {
  pencilCut(from: Position, to: Position): Written;
  /** Over everything that stands of the cut: of a disputed one the new ends hold. */
  movePencilledCut(cutId: string, from: Position, to: Position): Written;
  rubOutPencilledCut(cutId: string): Written;
  bringBackPencilledCut(cutId: string): Written;
  /** Settles a disputed cut: one of its versions holds. */
  settlePencilledCut(cutId: string, versionId: string): Written;
}

const gone: Written = { ok: false, sentence: "This cut is no longer here." };

/** @param at gives the writer's time, ISO 8601. */
export function pencilActions(session: RoomSession, at: () => string): PencilActions {
  const write = (cutId: string, terms: PencilledTerms): Written => {
    const writing = { authorId: session.me.userId, at: at(), newId: uuidv4 };
    const versions = writeOver(session.doc, cutId, terms, writing);
    const written = session.writeAll(
      versions.map((record) => ({ map: "pencilledCuts", key: record.id, record })),
    );
    return written.ok ? { ok: true, id: cutId } : written;
  };
  const ends = (from: Position, to: Position) => ({
    from: toPositionRecord(from),
    to: toPositionRecord(to),
    isRubbedOut: false,
  });
  const find = (cutId: string) =>
    [...readPencilledCuts(session.doc), ...readRubbedOut(session.doc)].find((cut) => cut.cutId === cutId);
  /** Of several versions the last written gives the ends. */
  const mark = (cutId: string, isRubbedOut: boolean): Written => {
    const last = find(cutId)?.versions.at(-1);
    return last ? write(cutId, { ...ends(last.from, last.to), isRubbedOut }) : gone;
  };
  return {
    pencilCut: (from, to) => write(uuidv4(), ends(from, to)),
    movePencilledCut: (cutId, from, to) => (find(cutId) ? write(cutId, ends(from, to)) : gone),
    rubOutPencilledCut: (cutId) => mark(cutId, true),
    bringBackPencilledCut: (cutId) => mark(cutId, false),
    settlePencilledCut: (cutId, versionId) => {
      const version = findRecord(session.doc, "pencilledCuts", versionId);
      if (version?.cutId !== cutId) return gone;
      const { from, to, isRubbedOut } = version;
      return write(cutId, { from, to, isRubbedOut });
    },
  };
}
