import type { DeskCut, DeskPerson } from "@/app/_data/desk/desk";
import type { Stretch, StripLetter } from "@/app/_ui/strip/strip-piece";
import type { SideName } from "@/lib/edition/choose-sides";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";

/** A version of the piece along its own clock. */
export interface Side {
  readonly name: SideName;
  /** How long it runs; null when its file is no longer the piece's. */
  readonly seconds: number | null;
  readonly cutCount: number;
}

/** A side with what is drawn of it, in seconds from the start as written, before `gaps` are closed. */
export interface DrawnSide extends Side {
  readonly seconds: number;
  readonly totalSeconds: number;
  readonly solo: readonly Stretch[];
  readonly tuttis: readonly Stretch[];
  readonly letters: readonly StripLetter[];
  readonly gaps: readonly Stretch[];
}

/** Somebody's word and when they gave it (ISO 8601, UTC). */
export interface Said {
  readonly userId: string;
  readonly at: string;
}

/** One difference as a line of the table. */
export interface DifferenceRow {
  readonly kind: EditionDifference["kind"];
  readonly sentence: string;
  /** Negative when the later side is shorter. */
  readonly secondsLonger: number;
  /** "Cut 1"; null for what is no cut, or one that nobody proposed under that name. */
  readonly cutNumber: number | null;
  /** "bars 9–16"; null where the side has no such cut. */
  readonly before: string | null;
  readonly after: string | null;
  readonly proposed: Said | null;
  /** Who agreed to it, or reopened it when the later side plays the bars again. */
  readonly answered: Said | null;
  /** Where it lies on either clock as written; null for what has no place. */
  readonly place: { readonly earlier: Stretch; readonly later: Stretch } | null;
}

export interface Comparison {
  readonly earlier: DrawnSide;
  readonly later: DrawnSide;
  readonly rows: readonly DifferenceRow[];
  /** Declined between the one and the other. */
  readonly declined: readonly DeskCut[];
}

export interface EditionView extends Side {
  readonly name: number;
  readonly hash: string;
  readonly previousHash: string | null;
  readonly frozenAt: string;
  readonly approvals: readonly (Said & { readonly name: string; readonly role: string })[];
  /** "bars 9–16", in the order of the page. */
  readonly cuts: readonly string[];
  /** How many tempi and timings of the duo's own it has. */
  readonly ownTempi: number;
}

/** The edition that is being made. */
export interface WorkingView extends Side {
  readonly number: number;
  readonly hash: string;
  readonly canFreeze: boolean;
  readonly whyNot: string | null;
  readonly open: readonly DeskCut[];
  readonly approvals: readonly Said[];
  /** Everything that both would agree to beyond the last edition (beyond the print, before the first). */
  readonly changes: readonly { readonly sentence: string; readonly secondsLonger: number }[];
}

/** All that the screen of editions shows, as plain JSON. */
export interface EditionsView {
  readonly pieceId: string;
  readonly title: string;
  readonly limitSeconds: number | null;
  readonly me: DeskPerson;
  readonly people: readonly DeskPerson[];
  readonly may: { readonly approve: boolean; readonly log: boolean };
  /** The newest first. */
  readonly editions: readonly EditionView[];
  readonly working: WorkingView;
  /** Null when one of the two has another file. */
  readonly comparison: Comparison | null;
  readonly chosen: { readonly earlier: SideName; readonly later: SideName };
  /** The latest first. */
  readonly performances: readonly PerformanceRecord[];
}
