import { chordNumber, dominantsInto } from "@/lib/harmony/chord-shapes";
import type { LocalChord } from "@/lib/harmony/find-chords";
import { sayKey } from "@/lib/harmony/say-key";
import { asGoodAsEqual } from "../find-precedent";
import type { JoinEdges } from "../join-edges";
import type { JoinGrade, JoinRow } from "../join-row";
import { precedentOf } from "../join-signs";
import { sayChord, sayDegree, sayMove, sayTimes } from "../say-music";

interface Succession {
  readonly before: LocalChord;
  readonly after: LocalChord;
  readonly times: number;
  readonly isSame: boolean;
  readonly isInKey: boolean;
}

const isSameChord = (a: LocalChord, b: LocalChord): boolean => a.root === b.root && a.quality === b.quality;
const isSameKey = (a: LocalChord, b: LocalChord): boolean =>
  a.key.tonic === b.key.tonic && a.key.mode === b.key.mode;

function isUsual({ before, after, isSame, isInKey }: Succession): boolean {
  if (isSame || dominantsInto[chordNumber(after)]?.includes(chordNumber(before))) return true;
  // Inside one key any chord of it may follow any other, but for what a dominant seventh asks for.
  return isInKey && before.function !== "foreign" && after.function !== "foreign";
}

function gradeSuccession(edges: JoinEdges, succession: Succession): JoinGrade {
  const precedent = precedentOf(edges.heard, edges.cut);
  const { before, after } = succession;
  const association = edges.heard.successions.association(chordNumber(before), chordNumber(after), -1);
  if (precedent && precedent.likeness >= asGoodAsEqual) return "clean";
  if (succession.isSame || succession.times >= 2 || (isUsual(succession) && association > -1)) return "clean";
  if (isUsual(succession) || association > -0.5) return "needs-a-touch";
  return "rough";
}

/** Counted on whatever degree. */
function sayOften(times: number): string {
  if (times === 0) return "a progression that the piece never makes";
  return `a progression the piece makes ${sayTimes(times)}`;
}

function sayChords(edges: JoinEdges, succession: Succession): string {
  const { before, after, isSame, isInKey, times } = succession;
  const { keys } = edges;
  if (!keys) return "";
  if (isSame && isInKey) return `Both sides stand on ${sayDegree(after)} of ${sayKey(keys.after)}`;
  const [from, to] = [sayChord(before, keys.before.tonicFifths), sayChord(after, keys.after.tonicFifths)];
  if (isSame) return `Both sides stand on ${to}`;
  return `${from} goes to ${to}, ${sayOften(times)}`;
}

/** Whether the second side's first chord follows the first side's last one, and how the bass moves. */
export function assessHarmony(edges: JoinEdges): JoinRow | null {
  const { heard, cut, chordBefore: before, chordAfter: after } = edges;
  if (!edges.before || !edges.after) return null;
  const bars = [before?.at.barIndex ?? cut.from.barIndex, after?.at.barIndex ?? cut.to.barIndex];
  if (!before || !after || edges.before.pitches.length === 0 || edges.after.pitches.length === 0) {
    const sentence = "One side of the join is silent.";
    return { kind: "harmony", grade: "clean", sentence, figures: {}, noteIds: [], bars };
  }
  const succession = {
    before,
    after,
    times: heard.successions.countOf(chordNumber(before), chordNumber(after)),
    isSame: isSameChord(before, after),
    isInKey: isSameKey(before, after),
  };
  const bass = (edges.after.pitches[0] as number) - (edges.before.pitches[0] as number);
  return {
    kind: "harmony",
    grade: gradeSuccession(edges, succession),
    sentence: `${sayChords(edges, succession)}; the bass ${sayMove(bass)}.`,
    figures: {
      rootBefore: before.root,
      rootAfter: after.root,
      qualityBefore: before.quality,
      qualityAfter: after.quality,
      degreeBefore: sayDegree(before),
      degreeAfter: sayDegree(after),
      timesInPiece: succession.times,
      bassStepSemitones: bass,
    },
    noteIds: [],
    bars,
  };
}
