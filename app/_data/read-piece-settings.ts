import { beatOf } from "@/lib/score/beat-of";
import type { PartRole } from "@/lib/score/part";
import { quartersAsNumber, writeQuarters } from "@/lib/score/quarters";
import { type Result, success } from "@/lib/score/result";
import { listInvitations } from "@/lib/store/invitations/list-invitations";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";
import type { DeskBar } from "./desk/desk";
import { beatOffsets } from "./desk/solo-text";
import { type DeskTempo, listTempi } from "./desk/strip-of";
import { inTimeOf, readPieceOnce } from "./read-desk";

/** A bar as the settings need it: the counted beat is what "beats a minute" counts here. */
export interface SettingsBar extends DeskBar {
  /** In quarters. */
  readonly beatQuarters: number;
}

export interface PieceSettings {
  readonly piece: PieceRecord;
  readonly mayChange: boolean;
  readonly parts: readonly {
    id: string;
    name: string;
    staffCount: number;
    noteCount: number;
    role: PartRole;
  }[];
  readonly bars: readonly SettingsBar[];
  /** Printed and assumed tempi, without the duo's own. */
  readonly printedTempi: readonly DeskTempo[];
  readonly invitations: readonly { id: string; role: string; invitedBy: string; expiresAt: string }[];
}

/** What the settings screen of a piece shows. */
export async function readPieceSettings(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PieceSettings, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const music = await readPieceScore(viewer, pieceId);
  if (!music.ok) return music;
  const { score } = music.value;
  const asPrinted = { ...piece.value, settings: { ...piece.value.settings, tempi: [] } };
  return success({
    piece: piece.value,
    mayChange: may(piece.value.myRole, "set-tempo"),
    parts: score.parts.map(({ id, name, staffCount, notes, role }) => ({
      ...{ id, name, staffCount, role },
      noteCount: notes.length,
    })),
    bars: score.bars.map((bar) => ({
      label: bar.label,
      length: writeQuarters(bar.length),
      beats: beatOffsets(bar),
      solo: "",
      beatQuarters: quartersAsNumber(beatOf(bar.metre)),
    })),
    printedTempi: listTempi(inTimeOf(asPrinted, music.value), []),
    invitations: await readInvitations(viewer, piece.value),
  });
}

async function readInvitations(viewer: Viewer, piece: PieceRecord): Promise<PieceSettings["invitations"]> {
  if (!may(piece.myRole, "invite")) return [];
  const pending = await listInvitations(viewer, piece.id);
  if (!pending.ok) return [];
  return pending.value.map(({ id, role, invitedBy, expiresAt }) => ({
    ...{ id, role, invitedBy },
    expiresAt: expiresAt.toISOString(),
  }));
}
