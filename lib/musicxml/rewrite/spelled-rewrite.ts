import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { type Quarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { beamPieces } from "./beam-pieces";
import { type NoteWriting, type PlacedNote, writeNotes } from "./note-elements";
import { spellVoice } from "./spell-voice";
import { type RewrittenVoice, voicesOfRewrite } from "./voices-of-rewrite";
import type { WrittenPiece } from "./written-piece";

/** One voice of a rewrite in one bar, as it is printed. */
export interface SpelledVoice extends Pick<RewrittenVoice, "barIndex" | "staff" | "voice"> {
  readonly pieces: readonly WrittenPiece[];
  readonly write: (writing: NoteWriting) => PlacedNote[];
}

/** Everything that a rewrite prints, by staff, voice and bar. */
export function spellRewrite(rewrite: RewriteTerms, score: Score): SpelledVoice[] {
  return voicesOfRewrite(rewrite, score).flatMap(({ events, ...where }) => {
    const bar = score.bars[where.barIndex];
    if (!bar) return [];
    const pieces = spellVoice(events, bar);
    const beams = beamPieces(pieces, bar);
    const write = (writing: NoteWriting) =>
      pieces.flatMap((piece) => writeNotes(piece, beams.get(piece) ?? [], writing));
    return [{ ...where, pieces, write }];
  });
}

/** Places and lengths in the bars that have to be whole divisions. */
export function timesOf(voices: readonly SpelledVoice[]): Quarters[] {
  return voices.flatMap(({ pieces }) =>
    pieces.flatMap(({ at, length }) => [at, length, scaleQuarters(length, 1, 2)]),
  );
}
