import type { Note } from "@/lib/score/note";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { SoloPlaying } from "./find-breaths";
import type { PlayedNote } from "./played-notes";

/** A place between two notes at which air could be taken, and what that does to the music. */
export interface BreathPlace {
  readonly performed: Quarters;
  readonly seconds: number;
  readonly afterNoteId: string;
  /** In seconds squared, like a stretch that is too long: how much longer a stretch one bears instead. */
  readonly penalty: number;
  readonly reasons: readonly string[];
}

/**
 * In seconds squared: to avoid a breath inside a slur one plays four seconds longer than is comfortable. The order (word,
 * slur, plain notes, short note) is common practice, the numbers are ours.
 */
const penalties = { every: 1, plain: 3, shortNote: 2, insideSlur: 16, insideWord: 25 };

/** A note this long or longer bears losing its end to a breath, in seconds. Source: common practice. */
const longNoteSeconds = 0.5;

/** Ids of the notes after which a slur goes on. */
function findSlurred(notes: readonly Note[]): { inside: Set<string>; ends: Set<string> } {
  const open = new Set<number>();
  const inside = new Set<string>();
  const ends = new Set<string>();
  for (const note of notes) {
    for (const { number, type } of note.slurs) {
      if (type === "stop") open.delete(number);
      if (type === "stop") ends.add(note.id);
    }
    for (const { number, type } of note.slurs) if (type === "start") open.add(number);
    if (open.size > 0) inside.add(note.id);
  }
  return { inside, ends };
}

/**
 * Places inside the playing, from one note to the next: never inside a tied note or a chord.
 *
 * @param phraseStarts indices of bars with which a phrase is thought to begin.
 */
export function findBreathPlaces(playing: SoloPlaying, phraseStarts: ReadonlySet<number>): BreathPlace[] {
  const { notes, timeline } = playing;
  const slurs = findSlurred(notes.map(({ note }) => note));
  const isSung = notes.some(({ note }) => note.lyric !== null);
  return notes.flatMap((played, index): BreathPlace[] => {
    const next = notes[index + 1];
    const goesOn =
      !next || played.note.tieStart || compareQuarters(next.performedFrom, played.performedTo) < 0;
    if (goesOn || (played.note.isChordMember && next.note.isChordMember)) return [];
    const start = timeline.secondsAtPerformed(played.performedFrom);
    const seconds = timeline.secondsAtPerformed(played.performedTo);
    const isShort = seconds - start < longNoteSeconds;
    const facts: [boolean, number, string][] = [
      [isSung && next.note.lyric === null, penalties.insideWord, "inside a word"],
      [slurs.inside.has(played.note.id), penalties.insideSlur, "inside a slur"],
      [isShort, penalties.shortNote, "after a short note"],
    ];
    const against = facts.filter(([isTrue]) => isTrue);
    const speaksFor = whatSpeaksFor(played, next, slurs.ends, phraseStarts);
    const plain = against.length === 0 && speaksFor.length === 0 ? penalties.plain : 0;
    const penalty = penalties.every + plain + against.reduce((sum, [, weight]) => sum + weight, 0);
    const reasons = [...speaksFor, ...against.map(([, , reason]) => reason)];
    return [{ performed: played.performedTo, seconds, afterNoteId: played.note.id, penalty, reasons }];
  });
}

function whatSpeaksFor(
  played: PlayedNote,
  next: PlayedNote,
  slurEnds: ReadonlySet<string>,
  phraseStarts: ReadonlySet<number>,
): string[] {
  const facts: [boolean, string][] = [
    [compareQuarters(played.performedTo, next.performedFrom) < 0, "at a short rest"],
    [slurEnds.has(played.note.id), "after a slur"],
    [played.note.barIndex !== next.note.barIndex && phraseStarts.has(next.note.barIndex), "before a phrase"],
  ];
  return facts.filter(([isTrue]) => isTrue).map(([, reason]) => reason);
}
