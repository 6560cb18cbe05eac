import { groupByBar } from "@/lib/score/group-by-bar";
import type { Note, Tremolo } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import { performedEnd } from "@/lib/score/performed-bars-between";
import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import { midiNumber } from "@/lib/score/pitch";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  isEqualQuarters,
  type Quarters,
  scaleQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { shareTremolos } from "@/lib/score/share-tremolos";
import { strokeLength } from "@/lib/score/tremolo-stroke";

/** A note as it is struck, in performed time; what is tied to it is in it. */
export interface StruckNote {
  readonly note: Note;
  readonly midi: number;
  readonly from: Quarters;
  readonly to: Quarters;
  /** It has nothing before it: it begins what is played, or what is played behind a cut. */
  readonly isFirst: boolean;
  /** One of several notes, or strokes, that one written note stands for. */
  readonly isPartial: boolean;
}

/** Grace notes, and when what they lead to sounds. */
export interface PlacedGrace {
  readonly note: Note;
  readonly midi: number;
  readonly at: Quarters;
  readonly isFirst: boolean;
}

export interface PlacedNotes {
  /** By onset. */
  readonly struck: readonly StruckNote[];
  readonly graces: readonly PlacedGrace[];
}

/** Notes that are heard: what a player plays and what leads to it. Source: as for `isPlayed`; an unpitched note has no sound. */
function isHeard(note: Note): boolean {
  return !note.isCue && !note.isHidden && note.sounding !== null && (note.isGrace || note.duration.num > 0);
}

/**
 * The notes of a part in performed time.
 *
 * - Tied notes are one note, across repeats too; never across a cut, where the note that lost its beginning is struck anew.
 * - A note that a cut breaks ends there. One that began inside a cut, or before what is played, is not heard.
 * - Tremolos are played out as they are measured; unmeasured ones as 32nds.
 *
 * @param breaks performed times, as `writeQuarters` writes them, before which nothing goes on: the start and every seam.
 */
export function placeNotes(
  score: Score,
  order: PerformedOrder,
  part: Part,
  breaks: ReadonlySet<string>,
): PlacedNotes {
  const byBar = groupByBar(shareTremolos(part.notes).filter(isHeard));
  const struck: StruckNote[] = [];
  const graces: PlacedGrace[] = [];
  const ties = new OpenTies();
  for (const piece of order.bars) {
    const barStart = score.bars[piece.barIndex]?.start;
    if (!barStart) continue;
    for (const note of byBar.get(piece.barIndex) ?? []) {
      const span = place(note, barStart, piece);
      if (span === null) continue;
      const isFirst = breaks.has(writeQuarters(span.from));
      const midi = Math.round(midiNumber(note.sounding ?? note.written ?? middleC));
      if (note.isGrace) {
        if (leadsSomewhere(order, piece, span.from, isFirst))
          graces.push({ note, midi, at: span.from, isFirst });
        continue;
      }
      if (note.tremolo) {
        struck.push(
          ...strokes(note, note.tremolo, span, piece, (from) => ({
            note,
            midi,
            isFirst: isFirst && isEqualQuarters(from, span.from),
          })),
        );
        continue;
      }
      const goesOn = note.tieStop && !isFirst ? ties.take(midi, note.voice, span.from) : null;
      const index = goesOn ?? struck.push({ note, midi, ...span, isFirst, isPartial: false }) - 1;
      const first = struck[index];
      if (goesOn !== null && first) struck[index] = { ...first, to: span.to };
      if (note.tieStart) ties.open({ midi, voice: note.voice, until: span.to, index });
    }
  }
  return { struck: struck.sort((a, b) => compareQuarters(a.from, b.from)), graces };
}

/** A grace note at the end of a bar leads to the next one; when that is not played, it leads nowhere. */
function leadsSomewhere(order: PerformedOrder, piece: PerformedBar, at: Quarters, isFirst: boolean): boolean {
  if (isEqualQuarters(at, order.length)) return false;
  return !isFirst || isEqualQuarters(at, piece.start);
}

const middleC = { step: "C", alter: 0, octave: 4 } as const;

/** Performed time of a note inside a piece of its bar; null when it does not begin there. */
function place(note: Note, barStart: Quarters, piece: PerformedBar): { from: Quarters; to: Quarters } | null {
  const offset = subtractQuarters(note.onset, barStart);
  const isBehind = compareQuarters(offset, piece.to) >= 0;
  // Grace notes at the end of a bar lead to what comes next.
  const leadsOn = note.isGrace && isEqualQuarters(offset, piece.to);
  if (compareQuarters(offset, piece.from) < 0 || (isBehind && !leadsOn)) return null;
  const inPiece = (at: Quarters) => addQuarters(piece.start, subtractQuarters(at, piece.from));
  return { from: inPiece(offset), to: inPiece(earlierOf(addQuarters(offset, note.duration), piece.to)) };
}

interface OpenTie {
  readonly midi: number;
  readonly voice: string;
  readonly until: Quarters;
  /** Place of the note that goes on among the struck ones. */
  readonly index: number;
}

/** Ties that wait for the note they lead to. */
class OpenTies {
  private readonly byPitch = new Map<number, OpenTie[]>();

  open(tie: OpenTie): void {
    const waiting = this.byPitch.get(tie.midi);
    if (waiting) waiting.push(tie);
    else this.byPitch.set(tie.midi, [tie]);
  }

  /** The note that goes on with this pitch at this moment, in the same voice if there is one; null when none does. */
  take(midi: number, voice: string, at: Quarters): number | null {
    const waiting = (this.byPitch.get(midi) ?? []).filter(({ until }) => compareQuarters(until, at) >= 0);
    const here = waiting.filter(({ until }) => isEqualQuarters(until, at));
    const tie = here.find((one) => one.voice === voice) ?? here[0];
    this.byPitch.set(
      midi,
      waiting.filter((one) => one !== tie),
    );
    return tie?.index ?? null;
  }
}

/** More strokes than this for one note are no music any more. */
const mostStrokes = 512;

/**
 * The strokes of a tremolo, as far as the piece of its bar lets them sound. Of two notes that alternate, each has every
 * other one, over the length of both.
 */
function strokes(
  note: Note,
  tremolo: Tremolo,
  span: { readonly from: Quarters; readonly to: Quarters },
  piece: PerformedBar,
  make: (from: Quarters) => Pick<StruckNote, "note" | "midi" | "isFirst">,
): StruckNote[] {
  const unit = strokeLength(note.duration, tremolo);
  const { type } = tremolo;
  const alternates = type === "start" || type === "stop";
  const step = alternates ? scaleQuarters(unit, 2) : unit;
  const begin = type === "stop" ? addQuarters(subtractQuarters(span.from, note.duration), unit) : span.from;
  const end = earlierOf(
    type === "start" ? addQuarters(span.to, note.duration) : span.to,
    performedEnd(piece),
  );
  const made: StruckNote[] = [];
  let from = begin;
  for (let count = 0; count < mostStrokes && compareQuarters(from, end) < 0; count += 1) {
    const to = earlierOf(addQuarters(from, unit), end);
    if (compareQuarters(from, piece.start) >= 0) made.push({ ...make(from), from, to, isPartial: true });
    from = addQuarters(from, step);
  }
  return made;
}
