import type { WorkletSynthesizer } from "spessasynth_lib";
import type { ScheduledNote, ScheduledVoice } from "@/lib/sound/schedule";
import { fetchWithProgress } from "./fetch-with-progress";
import { loadSynthesizer } from "./load-synthesizer";
import type { Engine } from "./player";
import type { SoundAddresses } from "./sound-files";

/** The gate opens and closes over this time, in seconds, so that nothing clicks. */
const gateSeconds = 0.008;
/** Controller number of "all sound off". Source: MIDI 1.0. */
const allSoundOff = 120;
const channelCount = 16;
/** A click that counts in, in hertz and seconds: high for the first of a bar. The choice is ours. */
const click = { first: 1760, other: 1174, seconds: 0.06, gain: 0.25 };

/**
 * What sounds: the synthesizer in its worklet, behind it a gate that silences at once, and a meter. Made at a press,
 * because browsers let sound begin only there.
 */
export class SoundEngine implements Engine {
  private readonly context = new AudioContext({ latencyHint: "interactive" });
  private readonly gate = this.context.createGain();
  private readonly meter = this.context.createAnalyser();
  private readonly clicks = new Set<OscillatorNode>();
  private synthesizer: WorkletSynthesizer | null = null;
  private loading: Promise<void> | null = null;

  constructor(private readonly addresses: SoundAddresses) {
    this.gate.gain.value = 0;
    this.gate.connect(this.meter);
    this.meter.connect(this.context.destination);
  }

  now(): number {
    return this.context.currentTime;
  }

  /** From what is sent to what is heard, in seconds. */
  latency(): number {
    // Not every browser tells.
    return this.context.outputLatency || this.context.baseLatency || 0;
  }

  async wake(): Promise<void> {
    if (this.context.state !== "running") await this.context.resume();
  }

  load(onProgress: (done: number) => void): Promise<void> {
    this.loading ??= this.open(onProgress).catch((error: unknown) => {
      this.loading = null;
      throw error;
    });
    return this.loading;
  }

  private async open(onProgress: (done: number) => void): Promise<void> {
    const [bank, library] = await Promise.all([
      fetchWithProgress(this.addresses.bank, onProgress),
      loadSynthesizer(),
      this.context.audioWorklet.addModule(this.addresses.processor),
    ]);
    const synthesizer = new library.WorkletSynthesizer(this.context, { eventsEnabled: false });
    synthesizer.connect(this.gate);
    await synthesizer.isReady;
    await synthesizer.soundBankManager.addSoundBank(bank, "bank");
    this.synthesizer = synthesizer;
  }

  setVoices(voices: readonly ScheduledVoice[]): void {
    for (const { channel, program } of voices) this.synthesizer?.programChange(channel, program);
  }

  strike({ channel, midi, velocity }: ScheduledNote, at: number): void {
    this.synthesizer?.noteOn(channel, midi, velocity, { time: at });
  }

  release({ channel, midi }: ScheduledNote, at: number): void {
    this.synthesizer?.noteOff(channel, midi, { time: at });
  }

  count(isFirst: boolean, at: number): void {
    const beat = this.context.createOscillator();
    const envelope = this.context.createGain();
    beat.frequency.value = isFirst ? click.first : click.other;
    envelope.gain.setValueAtTime(click.gain, at);
    envelope.gain.exponentialRampToValueAtTime(0.001, at + click.seconds);
    beat.connect(envelope).connect(this.gate);
    beat.start(at);
    beat.stop(at + click.seconds);
    this.clicks.add(beat);
    beat.onended = () => this.clicks.delete(beat);
  }

  /** Nothing is heard from now on, and whatever was sent up to `until` never. */
  hush(until: number): void {
    this.closeGate(this.context.currentTime);
    for (const beat of this.clicks) beat.stop();
    for (let channel = 0; channel < channelCount; channel += 1)
      this.synthesizer?.controllerChange(channel, allSoundOff, 0, { time: until });
  }

  openGate(at: number): void {
    const { gain } = this.gate;
    gain.cancelScheduledValues(at);
    gain.setValueAtTime(0, at);
    gain.linearRampToValueAtTime(1, at + gateSeconds);
  }

  closeGate(at: number): void {
    const { gain } = this.gate;
    gain.cancelScheduledValues(at);
    gain.setTargetAtTime(0, at, gateSeconds / 3);
  }

  close(): void {
    this.synthesizer?.destroy();
    void this.context.close();
  }
}
