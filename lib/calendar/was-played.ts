/** Of a performance: its day, and how long it took by the clock once that is known. */
interface Occasion {
  /** ISO date. */
  readonly on: string;
  readonly realSeconds: number | null;
}

/**
 * Whether a performance lies behind: then its edition is what was played, and no longer what is planned.
 *
 * @param today ISO date.
 */
export function wasPlayed({ on, realSeconds }: Occasion, today: string): boolean {
  return realSeconds !== null || on < today;
}
