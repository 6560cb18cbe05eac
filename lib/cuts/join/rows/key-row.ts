import { fifthsBetween } from "@/lib/harmony/key";
import { sayKey } from "@/lib/harmony/say-key";
import { asGoodAsEqual } from "../find-precedent";
import type { JoinEdges } from "../join-edges";
import type { JoinGrade, JoinRow } from "../join-row";
import { precedentOf } from "../join-signs";
import { phraseBegins } from "../places";

/** The chord before is the dominant of what follows, and resolves. */
function resolves({ chordBefore, chordAfter, keys }: JoinEdges): boolean {
  if (!chordBefore || !chordAfter || !keys) return false;
  const isMajor = chordBefore.quality === "major" || chordBefore.quality === "dominant-seventh";
  const isFifth = (chordBefore.root - keys.after.tonic + 12) % 12 === 7;
  return isMajor && isFifth && chordAfter.root === keys.after.tonic;
}

/** A change of key is heard as one when a phrase begins with it, and as a break inside a phrase. */
function gradeChange(edges: JoinEdges): { grade: JoinGrade; why: string } {
  const { heard, cut, keys } = edges;
  if (!keys) return { grade: "clean", why: "" };
  const { before, after } = keys;
  const precedent = precedentOf(heard, cut);
  if (precedent && precedent.likeness >= asGoodAsEqual)
    return { grade: "clean", why: ", as it does in the piece itself" };
  if (resolves(edges)) return { grade: "clean", why: ", and the dominant resolves" };
  const isUnsure =
    (before.confidence === "open" || after.confidence === "open") &&
    [before.evidence.runnerUp, after.evidence.runnerUp].some(
      (other) =>
        (other.tonic === after.tonic && other.mode === after.mode) ||
        (other.tonic === before.tonic && other.mode === before.mode),
    );
  if (isUnsure) return { grade: "needs-a-touch", why: ", though the keys are not clear here" };
  const beginsPhrase = edges.toPlace.phraseStart >= phraseBegins;
  const isNear = fifthsBetween(before, after) <= 1;
  if (isNear && beginsPhrase) return { grade: "needs-a-touch", why: ", a near key, with a new phrase" };
  return { grade: "rough", why: beginsPhrase ? ", a distant key" : " inside a phrase" };
}

/** Whether the music stays in its key. */
export function assessKey(edges: JoinEdges): JoinRow | null {
  const { keys, before, after, cut } = edges;
  if (!keys || !before || !after) return null;
  const isSame = keys.before.tonic === keys.after.tonic && keys.before.mode === keys.after.mode;
  const [name, other] = [sayKey(keys.before), sayKey(keys.after)];
  const { grade, why } = isSame ? { grade: "clean" as const, why: "" } : gradeChange(edges);
  return {
    kind: "key",
    grade,
    sentence: isSame ? `Both sides are in ${name}.` : `The key goes from ${name} to ${other}${why}.`,
    figures: {
      keyBefore: name,
      keyAfter: other,
      fifthsBefore: keys.before.tonicFifths - (keys.before.mode === "minor" ? 3 : 0),
      fifthsAfter: keys.after.tonicFifths - (keys.after.mode === "minor" ? 3 : 0),
      modeBefore: keys.before.mode,
      modeAfter: keys.after.mode,
      confidenceBefore: keys.before.confidence,
      confidenceAfter: keys.after.confidence,
    },
    noteIds: [],
    bars: [Math.max(0, cut.from.barIndex - (cut.from.offset.num === 0 ? 1 : 0)), cut.to.barIndex],
  };
}
