import { type BreathPreferences, defaultBreathPreferences } from "@/lib/breath/breath-preferences";
import type { PositionTerms } from "@/lib/edition/position-terms";
import type { RestAmount } from "@/lib/edition/rest-need";
import { findSoloPart } from "@/lib/score/find-part";
import { addQuarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { listRestNeeds } from "@/lib/store/rests/list-rest-needs";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";
import { readPieceOnce } from "../read-desk";
import { sayPitch } from "./solo-text";

/** A note of the solo after which air can be taken or not, in written order. Grace notes, cues and further notes of a chord are left out. */
export interface SoloNote {
  readonly id: string;
  readonly barIndex: number;
  /** Offsets in the bar, in quarters as text. */
  readonly from: string;
  readonly to: string;
  /** Written pitch, "Bb4"; empty for an unpitched note. */
  readonly pitch: string;
  /** It goes on in the next note. */
  readonly isTied: boolean;
}

/** A needed rest as the screen shows it. */
export interface BreathNeed {
  readonly id: string;
  readonly from: PositionTerms;
  readonly to: PositionTerms;
  readonly needs: RestAmount;
  readonly why: string;
  readonly notedBy: string;
  /** ISO 8601, UTC, like all times here. */
  readonly notedAt: string;
  readonly releasedBy: string | null;
  readonly releasedAt: string | null;
  readonly isRemoved: boolean;
  /** It was noted on the bars of a file that was replaced. */
  readonly isStale: boolean;
}

/** What the screen of breath and rest knows beside the desk. */
export interface BreathDesk {
  readonly notes: readonly SoloNote[];
  /** In the order in which they were noted. Empty for those who do not read the discussion. */
  readonly needs: readonly BreathNeed[];
  /** The soloist's own numbers; null while those for the instrument hold. */
  readonly preferences: BreathPreferences | null;
  readonly defaults: BreathPreferences;
  readonly maySetRests: boolean;
}

/** Breath and rest of a piece, as one member sees it. */
export async function readBreath(viewer: Viewer, pieceId: string): Promise<Result<BreathDesk, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const [music, needs] = await Promise.all([readPieceScore(viewer, pieceId), listRestNeeds(viewer, pieceId)]);
  if (!music.ok) return music;
  const { score, sourceHash } = music.value;
  return success({
    notes: listSoloNotes(score),
    // Who may not read the discussion gets none of it, and the rest of the page.
    needs: needs.ok ? needs.value.map((need) => toBreathNeed(need, sourceHash)) : [],
    preferences: piece.value.breath,
    defaults: defaultBreathPreferences(findSoloPart(score)),
    maySetRests: may(piece.value.myRole, "set-rests"),
  });
}

/** The notes that a breath can follow, in written order. */
export function listSoloNotes(score: Score): SoloNote[] {
  return (findSoloPart(score)?.notes ?? []).flatMap((note): SoloNote[] => {
    const bar = score.bars[note.barIndex];
    const isLeftOut = note.isCue || note.isHidden || note.isGrace || note.isChordMember;
    if (!bar || isLeftOut || note.duration.num === 0) return [];
    const from = subtractQuarters(note.onset, bar.start);
    return [
      {
        ...{ id: note.id, barIndex: note.barIndex, isTied: note.tieStart },
        from: writeQuarters(from),
        to: writeQuarters(addQuarters(from, note.duration)),
        pitch: note.written ? sayPitch(note.written) : "",
      },
    ];
  });
}

function toBreathNeed(record: RestNeedRecord, sourceHash: string): BreathNeed {
  const { id, terms, notedBy, releasedBy } = record;
  return {
    ...{ id, notedBy, releasedBy },
    ...{ from: terms.from, to: terms.to, needs: terms.needs, why: terms.why },
    notedAt: record.createdAt.toISOString(),
    releasedAt: record.releasedAt?.toISOString() ?? null,
    isRemoved: record.removedAt !== null,
    isStale: terms.sourceHash !== sourceHash,
  };
}
