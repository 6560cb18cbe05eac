import type { Note, Rest } from "@/lib/score/note";
import { compareQuarters, isEqualQuarters } from "@/lib/score/quarters";

export type Sounding =
  | { readonly kind: "note"; readonly note: Note }
  | { readonly kind: "rest"; readonly rest: Rest };

export function placeOf(item: Sounding): Note | Rest {
  return item.kind === "note" ? item.note : item.rest;
}

/**
 * The notes and rests of a bar as streams to be written one after the other: a voice each, in an order in which what
 * sounds together comes out as the model lists it. Where no order of the voices does that, all notes are one stream
 * and all rests another.
 */
export function orderVoices(notes: readonly Note[], rests: readonly Rest[]): Sounding[][] {
  const voiceOf = voicesOf(notes);
  const order = sortVoices(notes, rests, voiceOf);
  if (order === null) return [notes.map(asNote), rests.map(asRest)].filter((stream) => stream.length > 0);
  return order.map((voice) =>
    mergeByOnset(
      notes.filter((note) => voiceOf.get(note) === voice),
      rests.filter((rest) => rest.voice === voice),
    ),
  );
}

const asNote = (note: Note): Sounding => ({ kind: "note", note });
const asRest = (rest: Rest): Sounding => ({ kind: "rest", rest });

/** A chord member is written with the note that it joins, whatever its own voice. */
function voicesOf(notes: readonly Note[]): Map<Note, string> {
  const voices = new Map<Note, string>();
  let head = "1";
  for (const note of notes) {
    if (!note.isChordMember) head = note.voice;
    voices.set(note, head);
  }
  return voices;
}

/** Voices, each after those that come before it among simultaneous notes or rests; null when they go round in a ring. */
function sortVoices(
  notes: readonly Note[],
  rests: readonly Rest[],
  voiceOf: ReadonlyMap<Note, string>,
): string[] | null {
  const placed = [
    notes.map((note) => ({ onset: note.onset, voice: voiceOf.get(note) ?? note.voice })),
    rests.map(({ onset, voice }) => ({ onset, voice })),
  ];
  const before = new Map<string, Set<string>>();
  for (const list of placed) {
    list.forEach((item, index) => {
      const earlier = list[index - 1];
      const known = before.get(item.voice) ?? new Set();
      before.set(item.voice, known);
      if (earlier && earlier.voice !== item.voice && isEqualQuarters(earlier.onset, item.onset)) {
        known.add(earlier.voice);
      }
    });
  }
  return takeInOrder(before);
}

function takeInOrder(before: ReadonlyMap<string, ReadonlySet<string>>): string[] | null {
  const order: string[] = [];
  const left = new Set(before.keys());
  while (left.size > 0) {
    const next = [...left].find((voice) => [...(before.get(voice) ?? [])].every((other) => !left.has(other)));
    if (next === undefined) return null;
    order.push(next);
    left.delete(next);
  }
  return order;
}

/** At one place grace notes come before a rest and a rest before other notes. */
function mergeByOnset(notes: readonly Note[], rests: readonly Rest[]): Sounding[] {
  const merged: Sounding[] = [];
  const waiting = [...rests];
  for (const note of notes) {
    const isDue = (rest: Rest) => {
      const difference = compareQuarters(rest.onset, note.onset);
      return difference < 0 || (difference === 0 && !note.isGrace && !note.isChordMember);
    };
    for (let rest = waiting[0]; rest && isDue(rest); rest = waiting[0]) {
      merged.push(asRest(rest));
      waiting.shift();
    }
    merged.push(asNote(note));
  }
  return [...merged, ...waiting.map(asRest)];
}
