import { type ListenManner, plainManner, tempoPercents } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";
import type { Schedule, ScheduledNote, ScheduledVoice } from "@/lib/sound/schedule";
import { findPlace } from "./find-place";
import { MusicClock } from "./music-clock";
import type { Sound, SoundAt, SoundState } from "./sound-context";

/** What sounds. Moments are seconds of its own clock; whatever is sent with a moment sounds exactly then. */
export interface Engine {
  now(): number;
  /** From what is sent to what is heard, in seconds. */
  latency(): number;
  /** Lets sound begin; to be called from a press. */
  wake(): Promise<void>;
  /** Fetches the sounds, once. */
  load(onProgress: (done: number) => void): Promise<void>;
  setVoices(voices: readonly ScheduledVoice[]): void;
  strike(note: ScheduledNote, at: number): void;
  release(note: ScheduledNote, at: number): void;
  count(isFirst: boolean, at: number): void;
  /** Silences at once; what was sent for moments up to `until` is never heard. */
  hush(until: number): void;
  openGate(at: number): void;
  closeGate(at: number): void;
  close(): void;
}

export interface PlayerParts {
  makeEngine(): Engine;
  /** Everything that sounds, at full tempo, with all parts and the count-in. */
  perform(request: ListenRequest): Promise<Schedule>;
  /** Calls again and again until it is stopped; how often does not change what is heard. */
  repeat(tick: () => void): () => void;
  /** How far ahead notes are sent, in seconds: longer than the longest time between two ticks. */
  ahead(): number;
}

/** From the press to the first sound, in seconds: what is sent must arrive before its moment. */
const leadSeconds = 0.08;
/** The gate opens this long before the first sound. */
const gateSeconds = 0.02;
/** What was sent ahead dies away within this time after a hush. */
const hushSeconds = 0.02;
/** After the last note the strings go on ringing for this long. */
const ringSeconds = 1.5;
/** A shorter loop would only rattle. */
const shortestLoop = 0.25;

const notPlayed = "This could not be played. The notes are as they were.";
const noSounds = "The sounds did not arrive. Check the connection and press again.";
const noEngine = "This browser makes no sound here.";

const silent: SoundState = {
  ...{ status: "silent", request: null, loaded: null, totalSeconds: 0, substitutions: [] },
  ...{ manner: { ...plainManner, hasCountIn: true }, isLooping: false, problem: null },
};

/** Something that is being played: what of it was sent, and where it is. */
interface Run {
  readonly clock: MusicClock;
  /** Its first moment: before, it is at its beginning already. */
  readonly beginsAt: number;
  /** Up to this moment everything was sent. */
  sentUntil: number;
  nextNote: number;
  nextClick: number;
  /** Struck and not yet released. */
  sounding: ScheduledNote[];
  /** The moment at which the music ends, once all of it was sent; null before. */
  endsAt: number | null;
}

/**
 * The player of a page. It sends notes a little ahead of the sound clock, so that their moments are exact whatever the page
 * does meanwhile; a change of tempo or of parts counts from where the sending has come to.
 */
export class Player implements Sound {
  private engine: Engine | null = null;
  private schedule: Schedule | null = null;
  private run: Run | null = null;
  /** Place of the music, in seconds at full tempo, while it is paused. */
  private pausedAt = 0;
  /** Nothing new may sound before: what was sent ahead dies away. */
  private deafUntil = 0;
  private current: SoundState = silent;
  private place: SoundAt | null = null;
  private stopTicking: (() => void) | null = null;
  /** Counts what was asked for: an answer to an older question is dropped. */
  private turn = 0;
  private readonly listeners = new Set<() => void>();
  private readonly placeListeners = new Set<() => void>();

  constructor(private readonly parts: PlayerParts) {}

  readonly state = (): SoundState => this.current;
  readonly at = (): SoundAt | null => this.place;
  readonly subscribe = (listener: () => void) => listen(this.listeners, listener);
  readonly subscribeAt = (listener: () => void) => listen(this.placeListeners, listener);

  readonly secondsNow = (): number | null => {
    const place = this.placeNow();
    return place === null ? null : place / this.pace();
  };

  readonly play = (request: ListenRequest): void => {
    this.turn += 1;
    void this.begin(request, this.turn);
  };

  readonly pause = (): void => {
    if (this.current.status !== "playing") return;
    this.pausedAt = this.placeNow() ?? 0;
    this.halt();
    this.become({ status: "paused" });
  };

  readonly resume = (): void => {
    if (this.current.status !== "paused" || !this.engine) return;
    void this.engine.wake();
    this.startAt(this.pausedAt);
  };

  readonly stop = (): void => {
    this.turn += 1;
    this.halt();
    this.schedule = null;
    this.become({ status: "silent", request: null, loaded: null, totalSeconds: 0, problem: null });
    this.showPlace(null);
  };

  readonly seek = (seconds: number): void => {
    if (!this.schedule) return;
    const place = Math.min(Math.max(seconds * this.pace(), 0), this.schedule.totalSeconds);
    if (this.current.status === "playing") {
      this.halt();
      this.startAt(place);
    } else if (this.current.status === "paused") {
      this.pausedAt = place;
      this.showPlace(place);
    }
  };

  readonly goTo = (pieceSecond: number): boolean => {
    const { schedule } = this;
    const isHere = this.current.status === "playing" || this.current.status === "paused";
    const place = schedule?.places.find(({ pieceTo }) => pieceTo > pieceSecond + 1e-6);
    if (!isHere || !place) return false;
    this.seek(place.startSeconds / this.pace());
    return true;
  };

  readonly change = (changed: Partial<ListenManner>): void => {
    const before = this.current.manner;
    const asked = { ...before, ...changed };
    const { slowest, fastest } = tempoPercents;
    const manner = { ...asked, tempoPercent: Math.min(Math.max(asked.tempoPercent, slowest), fastest) };
    this.become({ manner, ...this.figures(manner) });
    if (!this.run) return;
    const from = this.sendingFrom(this.run);
    if (manner.tempoPercent !== before.tempoPercent) {
      this.run.clock.setPace(from, manner.tempoPercent / 100);
      if (this.run.endsAt !== null) this.run.endsAt = null;
    }
    this.endMuted(this.run, from);
    this.tick();
  };

  readonly loop = (isLooping: boolean): void => {
    this.become({ isLooping });
    if (this.run) this.run.endsAt = null;
    this.tick();
  };

  /** The page goes away. */
  close(): void {
    this.stop();
    this.engine?.close();
    this.engine = null;
  }

  private async begin(request: ListenRequest, turn: number): Promise<void> {
    this.halt();
    this.schedule = null;
    this.showPlace(null);
    this.become({ status: "preparing", request, loaded: 0, totalSeconds: 0, problem: null });
    try {
      this.engine ??= this.parts.makeEngine();
    } catch {
      return this.fail(noEngine, turn);
    }
    const { engine } = this;
    const woken = engine.wake();
    const loading = engine.load((loaded) => {
      if (turn === this.turn) this.become({ loaded });
    });
    const [performed, loaded] = await Promise.allSettled([
      this.parts.perform(request),
      loading.then(() => woken),
    ]);
    if (turn !== this.turn) return;
    if (loaded.status === "rejected") return this.fail(noSounds, turn);
    if (performed.status === "rejected") return this.fail(notPlayed, turn);
    this.schedule = performed.value;
    engine.setVoices(performed.value.voices);
    this.startAt(this.current.manner.hasCountIn ? -performed.value.countInSeconds : 0);
  }

  private fail(problem: string, turn: number): void {
    if (turn !== this.turn) return;
    this.become({ status: "silent", request: null, loaded: null, problem });
  }

  private startAt(place: number): void {
    const { engine, schedule } = this;
    if (!engine || !schedule) return;
    const at = Math.max(engine.now() + leadSeconds, this.deafUntil + gateSeconds);
    engine.openGate(at - gateSeconds);
    const first = schedule.notes.findIndex(({ onsetSeconds }) => onsetSeconds >= place - 1e-6);
    const click = schedule.countIn.findIndex(({ seconds }) => seconds >= place - 1e-6);
    this.run = {
      clock: new MusicClock(at, place, this.pace()),
      ...{ beginsAt: at, sentUntil: at, sounding: [], endsAt: null },
      nextNote: first < 0 ? schedule.notes.length : first,
      nextClick: click < 0 ? schedule.countIn.length : click,
    };
    this.become({ status: "playing", loaded: null, ...this.figures(this.current.manner) });
    this.stopTicking ??= this.parts.repeat(() => this.tick());
    this.tick();
  }

  /** Ends what sounds and what was sent ahead. */
  private halt(): void {
    this.stopTicking?.();
    this.stopTicking = null;
    const { engine, run } = this;
    this.run = null;
    if (!engine || !run) return;
    this.deafUntil = Math.max(engine.now(), run.sentUntil) + hushSeconds;
    engine.hush(this.deafUntil);
  }

  private tick(): void {
    const { run, engine } = this;
    if (!run || !engine) return;
    this.send(run, engine.now() + this.parts.ahead());
    this.showPlace(this.placeNow());
    if (run.endsAt !== null && engine.now() >= run.endsAt) this.finish(run.endsAt);
  }

  /** The music has come to its end; what rings goes on ringing. */
  private finish(endsAt: number): void {
    this.stopTicking?.();
    this.stopTicking = null;
    this.run = null;
    this.schedule = null;
    this.engine?.closeGate(endsAt + ringSeconds);
    // The request stays: whoever asked for it can tell that it came to its end.
    this.become({ status: "silent" });
    this.showPlace(null);
  }

  /** Sends everything for the moments up to `until`. */
  private send(run: Run, until: number): void {
    const { schedule, engine } = this;
    if (!schedule || !engine || run.endsAt !== null) return;
    while (run.sentUntil < until) {
      const end = run.clock.momentOf(schedule.totalSeconds);
      const to = Math.min(until, end);
      this.sendUpTo(run, run.clock.placeAt(to), schedule, engine);
      run.sentUntil = Math.max(run.sentUntil, to);
      if (end > until) return;
      this.releaseAll(run, end, engine);
      if (!this.current.isLooping || schedule.totalSeconds < shortestLoop) {
        run.endsAt = end;
        return;
      }
      run.clock.jump(end, 0);
      run.nextNote = 0;
    }
  }

  private sendUpTo(run: Run, place: number, schedule: Schedule, engine: Engine): void {
    const { clock } = run;
    for (let next = schedule.countIn[run.nextClick]; next && next.seconds < place; ) {
      engine.count(next.isFirst, clock.momentOf(next.seconds));
      run.nextClick += 1;
      next = schedule.countIn[run.nextClick];
    }
    for (let note = schedule.notes[run.nextNote]; note && note.onsetSeconds < place; ) {
      if (this.hears(note)) {
        engine.strike(note, clock.momentOf(note.onsetSeconds));
        run.sounding.push(note);
      }
      run.nextNote += 1;
      note = schedule.notes[run.nextNote];
    }
    const over = run.sounding.filter(({ endSeconds }) => endSeconds < place);
    for (const note of over) engine.release(note, clock.momentOf(note.endSeconds));
    if (over.length > 0) run.sounding = run.sounding.filter(({ endSeconds }) => endSeconds >= place);
  }

  private releaseAll(run: Run, at: number, engine: Engine): void {
    for (const note of run.sounding) engine.release(note, at);
    run.sounding = [];
  }

  /** Parts that are no longer wanted end. */
  private endMuted(run: Run, at: number): void {
    for (const note of run.sounding) if (!this.hears(note)) this.engine?.release(note, at);
    run.sounding = run.sounding.filter((note) => this.hears(note));
  }

  private sendingFrom(run: Run): number {
    return Math.max(run.sentUntil, this.engine?.now() ?? 0);
  }

  private hears({ role }: Pick<ScheduledNote, "role">): boolean {
    const { hasSolo, hasAccompaniment } = this.current.manner;
    return role === "solo" ? hasSolo : hasAccompaniment;
  }

  private pace(): number {
    return this.current.manner.tempoPercent / 100;
  }

  private figures(manner: ListenManner): Pick<SoundState, "totalSeconds" | "substitutions"> {
    const { schedule } = this;
    const voices = schedule?.voices ?? [];
    return {
      totalSeconds: ((schedule?.totalSeconds ?? 0) * 100) / manner.tempoPercent,
      substitutions: [...new Set(voices.flatMap(({ substituted }) => substituted ?? []))],
    };
  }

  /** What is heard at this moment, in seconds at full tempo. */
  private placeNow(): number | null {
    const { run, engine, schedule } = this;
    if (run && engine && schedule) {
      const heard = Math.max(engine.now() - engine.latency(), run.beginsAt);
      return Math.min(run.clock.placeAt(heard), schedule.totalSeconds);
    }
    return this.current.status === "paused" ? this.pausedAt : null;
  }

  private showPlace(place: number | null): void {
    const found = place === null || !this.schedule ? null : findPlace(this.schedule, place, this.pace());
    if (isSamePlace(found, this.place)) return;
    this.place = found;
    for (const listener of this.placeListeners) listener();
  }

  private become(changed: Partial<SoundState>): void {
    this.current = { ...this.current, ...changed };
    for (const listener of this.listeners) listener();
  }
}

function listen(listeners: Set<() => void>, listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function isSamePlace(a: SoundAt | null, b: SoundAt | null): boolean {
  if (a === null || b === null) return a === b;
  return a.startSeconds === b.startSeconds && a.seconds === b.seconds;
}
