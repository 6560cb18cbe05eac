import { ChordJudge } from "@/lib/harmony/chord-fit";
import { allChords, type Chord, chordQualities } from "@/lib/harmony/chord-shapes";
import { type HeardFrame, wholeFrame } from "@/lib/harmony/heard-frame";
import { defaultHearingCosts } from "@/lib/harmony/hearing-costs";
import type { LaneNote } from "./lanes";

const judge = new ChordJudge(defaultHearingCosts.chordFit);

/** What sounds between two times, as chords are judged by it. */
function hear(notes: readonly LaneNote[], from: number, to: number): HeardFrame {
  const shares = new Int32Array(12);
  const until = new Array<number>(12).fill(from);
  let [mask, lowest] = [0, Number.POSITIVE_INFINITY];
  let bass: number | null = null;
  const spellings = new Set<number>();
  for (const { onset, end, pitchClass, midi, fifths } of notes) {
    if (onset >= to || end <= from) continue;
    const begin = Math.max(onset, until[pitchClass] as number);
    const stop = Math.min(end, to);
    mask |= 1 << pitchClass;
    spellings.add(fifths);
    if (stop > begin) {
      shares[pitchClass] =
        (shares[pitchClass] as number) + Math.round((wholeFrame * (stop - begin)) / (to - from));
      until[pitchClass] = stop;
    }
    if (midi < lowest) [lowest, bass] = [midi, pitchClass];
  }
  const count = shares.reduce((sum, share) => sum + (share > 0 ? 1 : 0), 0);
  return { mask, count, shares, spellings: [...spellings], bass };
}

const fromBass = ({ root }: Chord, bass: number): number => (root - bass + 12) % 12;

/** The chord that one beat speaks for by itself, whatever is around it; −1 in silence. Ties go to the bass. */
export function hearLoneChord(notes: readonly LaneNote[], from: number, to: number): number {
  const frame = hear(notes, from, to);
  if (frame.bass === null || frame.count === 0) return -1;
  const { bass } = frame;
  const against = judge.judge(frame);
  const rank = (index: number) => {
    const chord = allChords[index] as Chord;
    return fromBass(chord, bass) * chordQualities.length + chordQualities.indexOf(chord.quality);
  };
  let best = 0;
  for (let index = 1; index < against.length; index += 1) {
    const [cost, least] = [against[index] as number, against[best] as number];
    if (cost < least || (cost === least && rank(index) < rank(best))) best = index;
  }
  return best;
}
