import type { Score } from "@/lib/score/score";
import { ChordJudge } from "./chord-fit";
import { chordInKeyCost } from "./chord-in-key";
import { allChords, chordQualities, dominantsInto } from "./chord-shapes";
import { type HeardFrame, startsBar } from "./heard-frame";
import type { HearingCosts } from "./hearing-costs";
import type { JointModel } from "./joint-path";
import { allKeys, fifthsBetween } from "./key";
import { keyCost, type LogTable } from "./key-fit";
import type { PitchClassFrame } from "./pitch-class-frames";

const noSignature = { fifths: null, mode: null };

/** What the key signature's major tonic is, for ties in silence. */
function referenceOf(score: Score, frame: PitchClassFrame, heard: HeardFrame): number {
  if (heard.bass !== null) return heard.bass;
  const fifths = score.bars[frame.at.barIndex]?.key.fifths ?? 0;
  return (((7 * fifths) % 12) + 12) % 12;
}

/** Everything counted from the lowest note, so that a transposed piece is decided as the piece itself. */
function rankFrom(reference: number, keyIndex: number, chordIndex: number): number {
  const fromReference = (pitchClass: number) => (pitchClass - reference + 12) % 12;
  const [key, chord] = [allKeys[keyIndex], allChords[chordIndex]];
  if (!key || !chord) return 0;
  const ofChord = fromReference(chord.root) * chordQualities.length + chordQualities.indexOf(chord.quality);
  return ofChord * allKeys.length + fromReference(key.tonic) * 2 + (key.mode === "minor" ? 1 : 0);
}

/** The costs of every key and chord in every frame. */
export function buildJointModel(
  score: Score,
  frames: readonly PitchClassFrame[],
  heard: readonly HeardFrame[],
  logs: LogTable,
  costs: HearingCosts,
): JointModel {
  const { change } = costs;
  const judge = new ChordJudge(costs.chordFit);
  const signatureOf = (frame: PitchClassFrame) => score.bars[frame.at.barIndex]?.key ?? noSignature;
  const references = frames.map((frame, index) => referenceOf(score, frame, heard[index] as HeardFrame));
  return {
    keyCosts: frames.map((frame, index) =>
      Int32Array.from(allKeys, (_, key) =>
        keyCost(heard[index] as HeardFrame, signatureOf(frame), key, logs, costs.keyFit),
      ),
    ),
    chordCosts: heard.map((frame) => judge.judge(frame)),
    chordInKey: allKeys.map((key) =>
      Int32Array.from(allChords, (chord) => chordInKeyCost(chord, key, costs.functions)),
    ),
    isSilent: heard.map(({ count }) => count === 0),
    keyChange: allKeys.map((from) =>
      Int32Array.from(allKeys, (to) =>
        from === to ? 0 : change.key + change.keyPerFifth * fifthsBetween(from, to),
      ),
    ),
    chordChange: Int32Array.from(frames, (frame) => (startsBar(frame) ? change.chordAtBar : change.chord)),
    leadsInto: dominantsInto,
    leadingGain: change.leading,
    rank: (frame, key, chord) => rankFrom(references[frame] as number, key, chord),
  };
}
