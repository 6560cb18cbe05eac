import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { comparePositions } from "@/lib/score/position";
import {
  addQuarters,
  type Quarters,
  readQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** What a voice plays in a span: every pitch with its beginning and end, ties joined, and the silences. */
interface Heard {
  readonly line: string;
  readonly what: string;
  readonly from: Quarters;
  readonly to: Quarters;
  /** Goes on with the same in the next. */
  readonly isTied: boolean;
}

const name = ({ step, alter, octave }: { step: string; alter: number; octave: number }) =>
  `${step}${alter}/${octave}`;
const tremolo = (first: readonly string[], other: readonly string[]) =>
  `${[...first].sort().join("+")} to and fro ${[...other].sort().join("+")}`;

/** What a rewrite says, in a form that can be compared with `heardInScore`. */
export function heardInTerms(rewrite: RewriteTerms, score: Score): string[] {
  const timeOf = (event: RewriteEvent) =>
    addQuarters(score.bars[event.at.barIndex]!.start, toPosition(event.at).offset);
  return join(
    rewrite.events.flatMap((event): Heard[] => {
      const from = timeOf(event);
      const to = addQuarters(from, readQuarters(event.lasts)!);
      const line = `${event.staff} ${event.voice}`;
      const own = { line, from, to };
      if (event.pitches.length === 0) return [{ ...own, what: "rest", isTied: true }];
      const other = event.tremolo?.other ?? [];
      if (other.length > 0)
        return [{ ...own, what: tremolo(event.pitches.map(name), other.map(name)), isTied: true }];
      return event.pitches.map((pitch, index) => ({
        ...own,
        what: name(pitch),
        isTied: event.tied.includes(index),
      }));
    }),
  );
}

/** What a score plays in the span of a rewrite, in the voices that it writes. */
export function heardInScore(
  rewrite: RewriteTerms,
  score: Score,
  partId = rewrite.partId,
  staff?: number,
): string[] {
  const part = score.parts.find(({ id }) => id === partId)!;
  const lines = new Set(rewrite.events.map((event) => `${event.staff} ${event.voice}`));
  const heard: Heard[] = [];
  const open = new Map<string, { notes: string[]; from: Quarters }>();
  const isInside = (barIndex: number, onset: Quarters) => {
    const at = { barIndex, offset: subtractQuarters(onset, score.bars[barIndex]!.start) };
    return (
      comparePositions(at, toPosition(rewrite.from)) >= 0 && comparePositions(at, toPosition(rewrite.to)) < 0
    );
  };
  const lineOf = (each: { staff: number; voice: string }) => `${staff ?? each.staff} ${each.voice}`;
  for (const rest of part.rests) {
    if (rest.isHidden || !lines.has(lineOf(rest)) || !isInside(rest.barIndex, rest.onset)) continue;
    const to = addQuarters(rest.onset, rest.duration);
    heard.push({ line: lineOf(rest), what: "rest", from: rest.onset, to, isTied: true });
  }
  const inside = part.notes.filter((note) => lines.has(lineOf(note)) && isInside(note.barIndex, note.onset));
  for (const [index, note] of inside.entries()) {
    const own = { line: lineOf(note), from: note.onset, to: addQuarters(note.onset, note.duration) };
    const lead = note.isChordMember ? leadOf(inside, index) : note;
    const side = lead?.tremolo?.type;
    if (side !== "start" && side !== "stop") {
      heard.push({ ...own, what: name(note.written!), isTied: note.tieStart });
      continue;
    }
    const key = `${own.line} ${side === "stop" ? writeQuarters(subtractQuarters(own.from, note.duration)) : writeQuarters(own.from)}`;
    const state = open.get(`${side} ${key}`) ?? { notes: [], from: own.from };
    state.notes.push(name(note.written!));
    open.set(`${side} ${key}`, state);
  }
  for (const [key, { notes, from }] of open) {
    if (!key.startsWith("start ")) continue;
    const stop = open.get(key.replace("start ", "stop "))!;
    const to = addQuarters(stop.from, subtractQuarters(stop.from, from));
    const [, staffName, voice] = key.split(" ");
    heard.push({ line: `${staffName} ${voice}`, what: tremolo(notes, stop.notes), from, to, isTied: true });
  }
  return join(heard);
}

function leadOf(notes: readonly { isChordMember: boolean }[], index: number) {
  // Of one onset a chord's members follow its first note.
  let lead = index;
  while (lead > 0 && notes[lead]!.isChordMember) lead -= 1;
  return notes[lead] as Score["parts"][number]["notes"][number] | undefined;
}

/** Joins what goes on, and writes it down in order. */
function join(heard: readonly Heard[]): string[] {
  const joined: Heard[] = [];
  const inOrder = heard.toSorted(
    (a, b) =>
      Number(a.line > b.line) - Number(a.line < b.line) || a.from.num * b.from.den - b.from.num * a.from.den,
  );
  for (const each of inOrder) {
    const index = joined.findLastIndex(
      (before) =>
        before.line === each.line &&
        before.what === each.what &&
        before.isTied &&
        writeQuarters(before.to) === writeQuarters(each.from),
    );
    if (index === -1) joined.push(each);
    else joined[index] = { ...each, from: joined[index]!.from };
  }
  return joined
    .map(({ line, what, from, to }) => `${line}: ${what} ${writeQuarters(from)} to ${writeQuarters(to)}`)
    .sort();
}
