/** A stretch of clock time, in seconds. */
export interface ClockSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** Playing against resting in the window that is hardest. */
export interface PlayToRest {
  /** The first of the windows in which most is played. */
  readonly window: ClockSpan;
  readonly playedSeconds: number;
  readonly restedSeconds: number;
  /** Played ÷ rested; null when nothing is rested. */
  readonly playedPerRested: number | null;
  /** Where windows lie that are harder than wanted; those that overlap are one. Empty when no ratio is wanted. */
  readonly tooHard: readonly ClockSpan[];
}

/** Seconds played up to a time; spans are in order and apart. */
function readPlayed(spans: readonly ClockSpan[]): (time: number) => number {
  const before: number[] = [];
  let sum = 0;
  for (const span of spans) {
    before.push(sum);
    sum += span.endSeconds - span.startSeconds;
  }
  return (time) => {
    let low = 0;
    let high = spans.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((spans[middle]?.startSeconds ?? 0) <= time) low = middle + 1;
      else high = middle;
    }
    const span = spans[low - 1];
    return span ? (before[low - 1] ?? 0) + Math.min(time, span.endSeconds) - span.startSeconds : 0;
  };
}

/**
 * Starts of windows at which what is played in them changes its course: a window's beginning or its end meets an end of a
 * span. Between two of these starts it grows or falls evenly, so that nothing lies hidden between them.
 */
function findTurns(spans: readonly ClockSpan[], window: number, last: number): number[] {
  const ends = spans.flatMap(({ startSeconds, endSeconds }) => [startSeconds, endSeconds]);
  const turns = [0, last, ...ends, ...ends.map((end) => end - window)];
  return [...new Set(turns.filter((turn) => turn >= 0 && turn <= last))].sort((a, b) => a - b);
}

/** Starts of windows that are over a limit: exact, by the straight lines between the turns. */
function findOver(turns: readonly number[], played: (start: number) => number, limit: number): ClockSpan[] {
  const over: ClockSpan[] = [];
  const add = (startSeconds: number, endSeconds: number) => {
    const last = over.at(-1);
    if (last && startSeconds <= last.endSeconds) over[over.length - 1] = { ...last, endSeconds };
    else over.push({ startSeconds, endSeconds });
  };
  turns.forEach((turn, index) => {
    const next = turns[index + 1] ?? turn;
    const [here, there] = [played(turn), played(next)];
    if (here <= limit && there <= limit) return;
    const crossing = turn + ((limit - here) / (there - here)) * (next - turn);
    add(here > limit ? turn : crossing, there > limit ? next : crossing);
  });
  return over;
}

/**
 * How much is played in any window of a given length, wherever it begins. A piece shorter than the window is one window.
 *
 * @param spans in which the soloist plays, in order and apart.
 * @param restPerPlayed seconds of rest wanted for each second played; null when it does not matter.
 */
export function findPlayToRest(
  spans: readonly ClockSpan[],
  totalSeconds: number,
  windowSeconds: number,
  restPerPlayed: number | null,
): PlayToRest {
  const window = Math.min(windowSeconds, totalSeconds);
  const last = totalSeconds - window;
  const upTo = readPlayed(spans);
  const played = (start: number) => upTo(start + window) - upTo(start);
  const turns = findTurns(spans, window, last);
  let hardest = 0;
  // A billionth of a second more is no harder window, but what binary fractions leave over.
  for (const turn of turns) if (played(turn) > played(hardest) + 1e-9) hardest = turn;
  const playedSeconds = played(hardest);
  const restedSeconds = Math.max(0, window - playedSeconds);
  const isRested = restedSeconds > 1e-9;
  const limit = restPerPlayed === null ? window : window / (1 + restPerPlayed);
  const over = findOver(turns, played, limit + 1e-9);
  const tooHard: ClockSpan[] = [];
  for (const { startSeconds, endSeconds } of over) {
    const before = tooHard.at(-1);
    const end = endSeconds + window;
    if (before && startSeconds <= before.endSeconds)
      tooHard[tooHard.length - 1] = { ...before, endSeconds: end };
    else tooHard.push({ startSeconds, endSeconds: end });
  }
  return {
    window: { startSeconds: hardest, endSeconds: hardest + window },
    playedSeconds,
    restedSeconds,
    playedPerRested: isRested ? playedSeconds / restedSeconds : null,
    tooHard,
  };
}
