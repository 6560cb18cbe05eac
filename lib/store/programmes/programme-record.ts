import type { Expected } from "@/lib/edition/sum-programme";
import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { PerformanceKind, PerformanceRecord } from "../performances/performance-record";

/** A performance with the piece it is of, as those who belong to the piece see it. */
export interface ProgrammePerformance extends PerformanceRecord {
  readonly pieceTitle: string;
}

/** One entry of a programme, as far as the viewer may see it. */
export type ProgrammeEntry = {
  readonly itemId: string;
  /** Silence, tuning, walking on before it. */
  readonly gapSeconds: number;
} & (
  | {
      readonly kind: "performance";
      readonly performance: ProgrammePerformance;
      readonly expected: Expected;
      readonly mayLog: boolean;
      /** Whose pages of the edition the viewer reads. */
      readonly reads: ReadingFor;
    }
  /** Something that is not prepared here, in words, and its length. */
  | {
      readonly kind: "words";
      readonly title: string;
      readonly plannedSeconds: number | null;
      readonly realSeconds: number | null;
    }
  /** A piece that the viewer does not belong to: nothing about it is told. */
  | { readonly kind: "another piece" }
);

/** When, where and what: told to everybody who has a piece in it. */
export interface ProgrammeHead {
  readonly id: string;
  readonly isMine: boolean;
  /** Who drew it up. */
  readonly ownerName: string;
  readonly name: string;
  /** ISO 8601 date, in the place's own calendar. */
  readonly on: string;
  readonly startsAt: string | null;
  readonly place: string;
}

/** What only the person who drew it up sees. */
export interface OwnProgramme {
  readonly kind: PerformanceKind;
  readonly limitSeconds: number | null;
  /** Whether the clock of the limit stands still between the pieces. */
  readonly stopsBetween: boolean;
  readonly remarks: string;
  readonly revision: number;
  /** ISO 8601, UTC. */
  readonly changedAt: string;
  readonly isRemoved: boolean;
}

export interface ProgrammeRecord extends ProgrammeHead {
  /** Null for everybody else. */
  readonly own: OwnProgramme | null;
  /** In order; of somebody else's programme only one's own pieces. */
  readonly entries: readonly ProgrammeEntry[];
}
