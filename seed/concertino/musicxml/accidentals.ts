import type { Event } from "../event";
import { withOnsets } from "../event";
import { alterInKey, type Pitch } from "../pitch";

/** An accidental to print; `courtesy` where the key and the bar would not ask for it. */
export interface PrintedAccidental {
  readonly sign: string;
  readonly courtesy: boolean;
}

type Memory = Map<string, number>;

/**
 * Decides bar by bar, for the voices of one staff together, which notes print an accidental: those that differ from
 * key and bar so far, and as a courtesy those that return to the key after the bar before, or another octave of this
 * bar, altered the same letter. A note tied over from the bar before prints none and counts for nothing.
 */
export class AccidentalPlanner {
  private before: Memory = new Map();
  private tiedOver = new Set<string>();

  /** Accidentals of one bar, by voice, event and pitch. */
  planBar(voices: readonly (readonly Event[])[], fifths: number): (PrintedAccidental | undefined)[][][] {
    const printed = voices.map((events) => events.map((event) => event.pitches.map(noAccidental)));
    const now: Memory = new Map();
    for (const { voice, index, event, onset } of inTime(voices)) {
      event.pitches.forEach((pitch, p) => {
        if (onset === 0 && this.tiedOver.has(nameOf(pitch))) return;
        const row = printed[voice]?.[index];
        if (row) row[p] = this.decide(pitch, fifths, now);
      });
    }
    this.before = now;
    this.tiedOver = new Set(voices.flatMap((events) => tiedAtEnd(events)));
    return printed;
  }

  private decide(pitch: Pitch, fifths: number, now: Memory): PrintedAccidental | undefined {
    const key = alterInKey(pitch.step, fifths);
    const line = `${pitch.step}${pitch.octave}`;
    const known = now.get(line);
    now.set(line, pitch.alter);
    if (pitch.alter !== (known ?? key)) return { sign: signOf(pitch.alter), courtesy: false };
    if (known !== undefined) return undefined;
    const elsewhere = [...now].some(([other, alter]) => other[0] === pitch.step && alter !== pitch.alter);
    const earlier = this.before.get(line);
    const isCourtesy = elsewhere || (earlier !== undefined && earlier !== pitch.alter);
    return isCourtesy ? { sign: signOf(pitch.alter), courtesy: true } : undefined;
  }
}

function noAccidental(): PrintedAccidental | undefined {
  return undefined;
}

function nameOf(pitch: Pitch): string {
  return `${pitch.step}${pitch.alter}/${pitch.octave}`;
}

function tiedAtEnd(events: readonly Event[]): string[] {
  const last = events.at(-1);
  return last?.tied ? last.pitches.map(nameOf) : [];
}

function inTime(voices: readonly (readonly Event[])[]) {
  return voices
    .flatMap((events, voice) =>
      withOnsets(events).map(({ event, onset }, index) => ({ voice, index, event, onset })),
    )
    .sort((a, b) => a.onset - b.onset || a.voice - b.voice);
}

function signOf(alter: number): string {
  const sign = { "-2": "flat-flat", "-1": "flat", "0": "natural", "1": "sharp", "2": "double-sharp" }[alter];
  if (!sign) throw new RangeError(`No accidental for an alteration of ${alter}`);
  return sign;
}
