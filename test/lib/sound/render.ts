import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { SoundBankLoader, SpessaSynthProcessor } from "spessasynth_core";
import type { Schedule, ScheduledNote } from "@/lib/sound/schedule";

export const sampleRate = 44_100;

/** Samples from one look at the events to the next: 1.5 ms. The player's worklet looks every 128, 2.9 ms. */
const block = 64;

const bankFile = fileURLToPath(new URL("../../../app/_sound/bank/general-midi-12.sf3", import.meta.url));

/** A schedule as sound, one channel, without reverb: what is asked of it is when it sounds. */
export async function render(
  { notes, voices }: Pick<Schedule, "notes" | "voices">,
  seconds: number,
): Promise<Float32Array> {
  const synthesizer = new SpessaSynthProcessor(sampleRate, { effectsEnabled: false, eventsEnabled: false });
  const bytes = readFileSync(bankFile);
  const buffer = new Uint8Array(bytes).buffer;
  synthesizer.soundBankManager.addSoundBank(SoundBankLoader.fromArrayBuffer(buffer), "bank");
  await synthesizer.processorInitialized;
  for (const { channel, program } of voices) synthesizer.programChange(channel, program);
  const events = eventsOf(notes);
  const length = Math.ceil((seconds * sampleRate) / block) * block;
  const [left, right] = [new Float32Array(length), new Float32Array(length)];
  let next = 0;
  for (let at = 0; at < length; at += block) {
    for (let event = events[next]; event && event.seconds * sampleRate <= at; event = events[next]) {
      const { note, isOn } = event;
      if (isOn) synthesizer.noteOn(note.channel, note.midi, note.velocity);
      else synthesizer.noteOff(note.channel, note.midi);
      next += 1;
    }
    synthesizer.process(left, right, at, block);
  }
  return left.map((sample, index) => (sample + (right[index] ?? 0)) / 2);
}

function eventsOf(
  notes: readonly ScheduledNote[],
): { seconds: number; note: ScheduledNote; isOn: boolean }[] {
  return notes
    .flatMap((note) => [
      { seconds: note.onsetSeconds, note, isOn: true },
      { seconds: note.endSeconds, note, isOn: false },
    ])
    .sort((a, b) => a.seconds - b.seconds || Number(a.isOn) - Number(b.isOn));
}

/** Root mean square from one second to another. */
export function level(sound: Float32Array, from: number, to: number): number {
  const part = sound.subarray(Math.round(from * sampleRate), Math.round(to * sampleRate));
  return Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, part.length));
}

/** The first second at which the sound is louder than a share of its peak up to `until`. */
export function attackOf(sound: Float32Array, share: number, until: number): number {
  const part = sound.subarray(0, Math.round(until * sampleRate));
  const peak = part.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return part.findIndex((sample) => Math.abs(sample) > share * peak) / sampleRate;
}

/** The longest stretch, in seconds, in which the sound lies below a level, looked at in windows of 2 ms. */
export function longestGap(sound: Float32Array, from: number, to: number, below: number): number {
  const window = 0.002;
  let [longest, gap] = [0, 0];
  for (let at = from; at + window <= to; at += window) {
    gap = level(sound, at, at + window) < below ? gap + window : 0;
    longest = Math.max(longest, gap);
  }
  return longest;
}
