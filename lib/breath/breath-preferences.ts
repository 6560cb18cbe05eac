import type { Part } from "@/lib/score/part";

/** A player's own numbers. Guides to start from, never a norm: pain or trouble is a reason to stop and ask. */
export interface BreathPreferences {
  /** The longest stretch that is comfortable on one breath, in seconds; null where playing needs no breath. */
  readonly comfortableSeconds: number | null;
  /** A silence of at least this length is a breath, in seconds. */
  readonly catchSeconds: number;
  /** Seconds of rest wanted for each second played, over the window; null when it does not matter. */
  readonly restPerPlayed: number | null;
  /** The stretch of time over which playing and resting are compared, in seconds. */
  readonly windowSeconds: number;
}

/**
 * Comfortable stretches by the beginning of the MusicXML sound id: the middle of what is common practice (singers 6–10 s,
 * flutes 8–12, reeds and trumpets 10–20, tubas 3–6; for the other brass, from memory, between trumpet and tuba).
 */
const comfortable: readonly (readonly [string, number])[] = [
  ["voice", 8],
  ["wind.flutes", 10],
  ["wind.reed", 15],
  ["wind", 10],
  ["brass.trumpet", 15],
  ["brass.cornet", 15],
  ["brass.tuba", 4.5],
  ["brass", 10],
];

/** Catch breaths take 0.3 to 0.5 s; a player uses a rest a little shorter than that too. Source: common practice. */
const catchSeconds = 0.25;

/** Long enough for a passage, short enough to be felt. The choice is ours. */
const windowSeconds = 60;

/**
 * Where a player may start from. Brass players rest as much as they play (common practice); for others no ratio is
 * assumed. A part without a sound id, and strings, keyboards and percussion, get no comfortable stretch: ask the player.
 */
export function defaultBreathPreferences(part: Pick<Part, "soundId"> | null): BreathPreferences {
  const id = part?.soundId ?? "";
  const row = comfortable.find(([family]) => id === family || id.startsWith(`${family}.`));
  return {
    comfortableSeconds: row?.[1] ?? null,
    catchSeconds,
    restPerPlayed: id.startsWith("brass.") ? 1 : null,
    windowSeconds,
  };
}

/** @throws RangeError for a number that is no length of time. */
export function checkBreathPreferences(preferences: BreathPreferences): void {
  const { comfortableSeconds, catchSeconds: shortest, restPerPlayed, windowSeconds: window } = preferences;
  const isPositive = (value: number | null) => value === null || (Number.isFinite(value) && value > 0);
  if (!isPositive(comfortableSeconds) || !isPositive(window) || !(shortest >= 0)) {
    throw new RangeError(`Not lengths of breaths: ${comfortableSeconds}, ${shortest}, ${window} seconds`);
  }
  if (restPerPlayed !== null && !(restPerPlayed >= 0 && Number.isFinite(restPerPlayed))) {
    throw new RangeError(`Not a share of rest: ${restPerPlayed}`);
  }
}
