import type { PlannedSection } from "@/app/_stopwatch/run";

/** An edition as it is played, the newest first among several. */
export interface StopwatchEdition {
  readonly number: number;
  readonly sections: readonly PlannedSection[];
}

/** A logged performance that a stopwatch can be tapped for. */
export interface StopwatchPerformance {
  readonly id: string;
  readonly name: string;
  readonly on: string;
  readonly editionNumber: number;
  readonly limitSeconds: number | null;
}

/** What the screen of the stopwatch shows, as plain JSON. */
export interface StopwatchView {
  readonly userId: string;
  readonly pieceId: string;
  readonly title: string;
  readonly limitSeconds: number | null;
  readonly mayLog: boolean;
  readonly editions: readonly StopwatchEdition[];
  /** The latest first. */
  readonly performances: readonly StopwatchPerformance[];
}
