import type { Page } from "playwright-core";

/** What came out of a page's sound, and what it sent to its synthesizer. Moments are of the page's sound clock. */
export interface Hearing {
  /** Loudness at a moment: root mean square of about 46 ms before it, 0 to 1. */
  readonly levels: readonly { readonly at: number; readonly level: number }[];
  /** Notes that were sent, with the moment they were sent for. */
  readonly struck: readonly { readonly midi: number; readonly at: number }[];
  readonly now: number;
}

/** Listens to a page from before its first address on: at the meter that hangs before the loudspeaker. */
export async function hearPage(page: Page): Promise<{ listen(): Promise<Hearing> }> {
  await page.addInitScript(startHearing);
  return { listen: () => page.evaluate(() => (window as unknown as { hearing(): Hearing }).hearing()) };
}

/** Runs in the page. */
function startHearing(): void {
  const levels: { at: number; level: number }[] = [];
  const struck: { midi: number; at: number }[] = [];
  let context: AudioContext | null = null;
  const noteOn = 0x90;
  const { createAnalyser } = AudioContext.prototype;
  AudioContext.prototype.createAnalyser = function make(this: AudioContext) {
    const meter = createAnalyser.call(this);
    const samples = new Float32Array(meter.fftSize);
    context = this;
    const look = () => {
      meter.getFloatTimeDomainData(samples);
      const power = samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length;
      levels.push({ at: this.currentTime, level: Math.sqrt(power) });
    };
    setInterval(look, 10);
    return meter;
  };
  const { postMessage } = MessagePort.prototype;
  MessagePort.prototype.postMessage = function post(this: MessagePort, data: unknown, ...rest: unknown[]) {
    const message = data as { type?: string; data?: { messageData: Uint8Array; options: { time: number } } };
    if (message?.type === "midiMessage" && message.data) {
      const [status = 0, midi = 0] = message.data.messageData;
      if ((status & 0xf0) === noteOn) struck.push({ midi, at: message.data.options.time });
    }
    (postMessage as (this: MessagePort, ...all: unknown[]) => void).call(this, data, ...rest);
  } as typeof postMessage;
  Object.assign(window, { hearing: () => ({ levels, struck, now: context?.currentTime ?? 0 }) });
}
