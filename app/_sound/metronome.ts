import { type Click, type ClickPattern, clickAt } from "@/lib/practice/metronome";
import type { PracticeTempo } from "@/lib/practice/practice-tempo";
import type { Engine } from "./player";

/** What of the engine a metronome needs: its clock, its gate and its clicks. */
export type ClickEngine = Pick<
  Engine,
  "now" | "latency" | "wake" | "count" | "hush" | "openGate" | "closeGate" | "close"
>;

export interface MetronomeParts {
  makeEngine(): ClickEngine;
  /** Calls again and again until it is stopped; how often does not change what is heard. */
  repeat(tick: () => void): () => void;
  /** How far ahead clicks are sent, in seconds: longer than the longest time between two ticks. */
  ahead(): number;
}

/** What is clicked, and at what tempo. */
export interface Beating {
  /** Whoever set it going knows it by this. */
  readonly name: string;
  readonly pattern: ClickPattern;
  readonly tempo: PracticeTempo;
}

export interface MetronomeState {
  /** Null while it stands still. */
  readonly beating: Beating | null;
  /** A sentence when this browser makes no sound. */
  readonly problem: string | null;
}

/** From the press to the first click, in seconds: what is sent must arrive before its moment. */
const leadSeconds = 0.08;
const gateSeconds = 0.02;

const still: MetronomeState = { beating: null, problem: null };

/** Clicks are counted on from a moment: the first, or the one at which the tempo changed. */
interface Run {
  at: number;
  index: number;
  nextIndex: number;
  /** Sent and not yet heard: what is to be shown, with its moment. */
  coming: { readonly click: Click; readonly at: number }[];
}

/**
 * A metronome on the sound clock. Clicks are sent ahead of their moments, which are computed from whole numbers, so that they
 * are even whatever the page does meanwhile. Another tempo counts from the next click that was not sent.
 */
export class Metronome {
  private engine: ClickEngine | null = null;
  private run: Run | null = null;
  private current: MetronomeState = still;
  private heard: Click | null = null;
  private stopTicking: (() => void) | null = null;
  private readonly listeners = new Set<() => void>();
  private readonly clickListeners = new Set<() => void>();

  constructor(private readonly parts: MetronomeParts) {}

  readonly state = (): MetronomeState => this.current;
  /** The click that is heard now, the last one until the next; null while it stands still or before the first. */
  readonly click = (): Click | null => this.heard;
  readonly subscribe = (listener: () => void) => listen(this.listeners, listener);
  readonly subscribeClick = (listener: () => void) => listen(this.clickListeners, listener);

  /** Sets it going, from the first of a bar; what it clicked before ends. To be called from a press. */
  readonly start = (beating: Beating): void => {
    this.halt();
    try {
      this.engine ??= this.parts.makeEngine();
    } catch {
      this.become({ beating: null, problem: "This browser makes no sound here." });
      return;
    }
    const { engine } = this;
    void engine.wake();
    const at = engine.now() + leadSeconds;
    engine.openGate(at - gateSeconds);
    this.run = { at, index: 0, nextIndex: 0, coming: [] };
    this.become({ beating, problem: null });
    this.stopTicking = this.parts.repeat(this.tick);
    this.tick();
  };

  /** Another tempo for what it is clicking; the count goes on. */
  readonly change = (tempo: PracticeTempo): void => {
    const { run } = this;
    const { beating } = this.current;
    if (!run || !beating) return;
    run.at = this.momentOf(run, beating, run.nextIndex);
    run.index = run.nextIndex;
    this.become({ beating: { ...beating, tempo }, problem: null });
    this.tick();
  };

  readonly stop = (): void => {
    this.halt();
    if (this.current.beating !== null) this.become(still);
  };

  /** The page goes away. */
  close(): void {
    this.stop();
    this.engine?.close();
    this.engine = null;
  }

  private halt(): void {
    this.stopTicking?.();
    this.stopTicking = null;
    if (this.run && this.engine) this.engine.hush(this.engine.now());
    this.run = null;
    this.show(null);
  }

  private readonly tick = (): void => {
    const { run, engine } = this;
    const { beating } = this.current;
    if (!run || !engine || !beating) return;
    const until = engine.now() + this.parts.ahead();
    for (let at = this.momentOf(run, beating, run.nextIndex); at < until; ) {
      const click = clickAt(beating.pattern, beating.tempo, run.nextIndex);
      // What a page that slept has missed is not caught up with.
      if (at >= engine.now()) engine.count(click.stress !== "beat", at);
      run.coming.push({ click, at });
      run.nextIndex += 1;
      at = this.momentOf(run, beating, run.nextIndex);
    }
    this.showHeard(run, engine.now() - engine.latency());
  };

  private showHeard(run: Run, now: number): void {
    const last = run.coming.findLastIndex(({ at }) => at <= now);
    if (last < 0) return;
    this.show(run.coming[last]?.click ?? null);
    run.coming = run.coming.slice(last);
  }

  private momentOf(run: Run, { pattern, tempo }: Beating, index: number): number {
    const since = clickAt(pattern, tempo, index).seconds - clickAt(pattern, tempo, run.index).seconds;
    return run.at + since;
  }

  private show(click: Click | null): void {
    if (this.heard === click) return;
    this.heard = click;
    for (const listener of this.clickListeners) listener();
  }

  private become(state: MetronomeState): void {
    this.current = state;
    for (const listener of this.listeners) listener();
  }
}

function listen(listeners: Set<() => void>, listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
