import type { LocalChord } from "@/lib/harmony/find-chords";
import { compareQuarters } from "@/lib/score/quarters";
import type { JoinEdges } from "./join-edges";
import type { JoinRow } from "./join-row";
import type { LaneNote } from "./lanes";

/** From the lowest; of two of one pitch the one of the upper staff first. */
const byPitch = (a: LaneNote, b: LaneNote): number => a.midi - b.midi || a.lane - b.lane;

/** What sounded last before the cut, within a bar; empty in silence. */
function lastBefore({ heard: { sides }, fromTicks }: JoinEdges, barTicks: number): LaneNote[] {
  const near = sides
    .notesBetween(Math.max(0, fromTicks - barTicks), fromTicks)
    .filter(({ onset }) => onset < fromTicks);
  const last = Math.max(...near.map(({ end }) => Math.min(end, fromTicks)));
  return near.filter(({ end }) => Math.min(end, fromTicks) === last).sort(byPitch);
}

/** What sounds first from the landing on, within a bar; empty in silence. */
function firstAfter({ heard: { sides }, toTicks }: JoinEdges, barTicks: number): LaneNote[] {
  const near = sides
    .notesBetween(toTicks, toTicks + barTicks)
    .filter(({ onset, end }) => end > toTicks && onset < toTicks + barTicks);
  const first = Math.min(...near.map(({ onset }) => Math.max(onset, toTicks)));
  return near.filter(({ onset }) => Math.max(onset, toTicks) === first).sort(byPitch);
}

/** The notes that meet at a join, those of each side from the lowest. */
interface EdgeNotes {
  readonly before: readonly LaneNote[];
  readonly after: readonly LaneNote[];
}

function findEdgeNotes(edges: JoinEdges): EdgeNotes {
  const { heard, cut, before, after } = edges;
  const barTicks = (index: number) => {
    const bar = heard.score.bars[index] ?? heard.score.bars.at(-1);
    return bar ? heard.sides.ticks(bar.metreLength) : 0;
  };
  const barBefore = cut.from.offset.num === 0 ? cut.from.barIndex - 1 : cut.from.barIndex;
  return {
    before: before ? lastBefore(edges, barTicks(barBefore)) : [],
    after: after ? firstAfter(edges, barTicks(cut.to.barIndex)) : [],
  };
}

const idsOf = (notes: readonly (LaneNote | undefined)[]): string[] => [
  ...new Set(notes.flatMap((note) => (note ? [note.id] : []))),
];

/** All notes that meet. */
function allEdgeIds({ before, after }: EdgeNotes): string[] {
  return idsOf([...before, ...after]);
}

/** The highest on both sides. */
function topEdgeIds({ before, after }: EdgeNotes): string[] {
  return idsOf([before.at(-1), after.at(-1)]);
}

/** What a beat's chord was heard in. */
function chordNoteIds({ heard: { sides } }: JoinEdges, chord: LocalChord | null): string[] {
  if (!chord) return [];
  const [from, to] = [sides.ticks(chord.onset), sides.ticks(chord.end)];
  return idsOf(sides.notesBetween(from, to).filter(({ onset, end }) => onset < to && end > from));
}

/** What begins first in a bar. */
function firstNoteIds({ heard: { sides, score } }: JoinEdges, barIndex: number): string[] {
  const bar = score.bars[barIndex];
  if (!bar) return [];
  const start = sides.ticks(bar.start);
  const own = sides
    .notesBetween(start, start + sides.ticks(bar.length))
    .filter(({ onset }) => onset >= start && onset < start + sides.ticks(bar.length));
  const first = Math.min(...own.map(({ onset }) => onset));
  return idsOf(own.filter(({ onset }) => onset === first).sort(byPitch));
}

/** The soloist's entry after the cut. */
function entryIds({ heard, toTime }: JoinEdges): string[] {
  const entry = heard.solo.find(({ from }) => compareQuarters(from, toTime) >= 0);
  return entry ? [entry.firstNoteId] : [];
}

/**
 * A row with the notes that its sentence speaks of, when it names none itself: of the chords, of the top line, of the
 * passages that are compared, otherwise those that meet at the join. Empty only in silence.
 */
export function linkNotes(edges: JoinEdges, row: JoinRow): JoinRow {
  if (row.noteIds.length > 0) return row;
  return { ...row, noteIds: findNotes(edges, row) };
}

function findNotes(edges: JoinEdges, { kind, bars }: JoinRow): string[] {
  switch (kind) {
    case "harmony":
    case "key": {
      const ids = [edges.chordBefore, edges.chordAfter].flatMap((chord) => chordNoteIds(edges, chord));
      return [...new Set(ids)];
    }
    case "melody":
      return topEdgeIds(findEdgeNotes(edges));
    case "theme":
    case "precedent":
      return [...new Set(bars.flatMap((bar) => firstNoteIds(edges, bar)))];
    case "rest":
      return entryIds(edges);
    default:
      return allEdgeIds(findEdgeNotes(edges));
  }
}
