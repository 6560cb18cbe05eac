import type { DeskCut, DeskPerson } from "@/app/_data/desk/desk";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import type { ScoreCut } from "@/app/_ui/score/score-cut";
import type { Stretch, StripLetter } from "@/app/_ui/strip/strip-piece";
import type { SideName } from "@/lib/edition/choose-sides";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { AgreeingView, SaidChange } from "./agreeing-view";
import type { MergeView } from "./merge-view";

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
  /** The bars of the page that it touches, by index; null for what has no place on the score. */
  readonly bars: BarSpan | null;
  /** What either side has written there, in a word; null for a cut, which is seen. */
  readonly written: { readonly earlier: string; readonly later: string } | null;
}

/** A cut of one side as its score shows it. */
export interface SideCut extends Pick<ScoreCut, "id" | "from" | "to" | "firstBar" | "lastBar"> {
  /** "bars 9–16". */
  readonly name: string;
}

/** What is needed to lay both sides on the score. */
export interface OnScore {
  /** Changes when the engraved music does. */
  readonly stamp: string;
  /** Of every bar of the piece its printed number; what the solo does only of those near a difference. */
  readonly bars: readonly { readonly label: string; readonly solo: string }[];
  readonly earlier: readonly SideCut[];
  readonly later: readonly SideCut[];
  /** Runs of bars of which the two sides do not play the same. */
  readonly differing: readonly (BarSpan & { readonly playedBy: "earlier" | "later" | "both" })[];
}

export interface Comparison {
  readonly earlier: DrawnSide;
  readonly later: DrawnSide;
  readonly rows: readonly DifferenceRow[];
  readonly onScore: OnScore;
  /** Declined between the one and the other. */
  readonly declined: readonly DeskCut[];
}

/** Where a bar of the page is in each version. */
export interface FoundPlace {
  /** As it was asked for. */
  readonly asked: string;
  /** A sentence when there is no such bar. */
  readonly problem: string | null;
  readonly label: string;
  readonly sides: readonly {
    readonly name: SideName;
    /** "the 61st bar played", "cut (bars 9–16)". */
    readonly words: string;
    readonly isCut: boolean;
    /** How many bars it plays. */
    readonly of: number;
  }[];
}

/** What stood, and what was played, at a time that was asked for. */
export interface StoodThen {
  /** As the address has it: a month, a day, or a performance by its id. */
  readonly asked: string;
  /** A sentence when it is no time or nothing is known of it. */
  readonly problem: string | null;
  /** "May 2026", "14 May 2026", "Lunchtime recital". */
  readonly name: string;
  /** Numbers of the editions that stood then, the earliest first. */
  readonly stood: readonly { readonly number: number; readonly words: string }[];
  readonly performances: readonly PerformanceRecord[];
}

/** What bringing an old edition back would do. */
export interface RestorationView {
  readonly number: number;
  /** Why it cannot be; null when it can. */
  readonly problem: string | null;
  /** What is done at once, and what the other player is asked; in the order of the page. */
  readonly steps: readonly string[];
  /** What differs and is not brought back by this. */
  readonly left: readonly string[];
  /** Of what stands now: should it change meanwhile, nothing is done. */
  readonly workingHash: string;
  readonly secondsNow: number;
  /** Once everything is agreed. */
  readonly secondsThen: number;
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

/** A rewrite that waits for an answer. */
export interface OpenRewrite {
  /** Of the version that is asked about. */
  readonly id: string;
  readonly number: number;
  /** "bars 9–16". */
  readonly name: string;
  readonly waitsForMe: boolean;
  readonly proposedBy: string;
  readonly createdAt: string;
}

/** The edition that is being made. */
export interface WorkingView extends Side {
  readonly number: number;
  readonly hash: string;
  readonly canFreeze: boolean;
  readonly whyNot: string | null;
  readonly open: readonly DeskCut[];
  readonly openRewrites: readonly OpenRewrite[];
  /** How many answers are open, of both kinds. */
  readonly openCount: number;
  readonly approvals: readonly Said[];
  /** Everything that both would agree to beyond the last edition (beyond the print, before the first). */
  readonly changes: readonly SaidChange[];
  /** What the viewer has to have seen before they agree to freeze it. */
  readonly agreeing: AgreeingView;
}

/** All that the screen of editions shows, as plain JSON. */
export interface EditionsView {
  readonly pieceId: string;
  readonly title: string;
  readonly limitSeconds: number | null;
  readonly me: DeskPerson;
  readonly people: readonly DeskPerson[];
  /** First name of the other player; "the other player" while there is none. */
  readonly other: string;
  /** What this one is prepared for; null while nobody has named it. */
  readonly occasion: string | null;
  readonly may: {
    readonly approve: boolean;
    readonly log: boolean;
    readonly propose: boolean;
    readonly branch: boolean;
  };
  /** The newest first. */
  readonly editions: readonly EditionView[];
  readonly working: WorkingView;
  /** Null when one of the two has another file. */
  readonly comparison: Comparison | null;
  readonly chosen: { readonly earlier: SideName; readonly later: SideName };
  /** The latest first. */
  readonly performances: readonly PerformanceRecord[];
  /** Those that were taken off and can be brought back. */
  readonly removedPerformances: readonly PerformanceRecord[];
  /** What the address asks for; null where it does not. */
  readonly place: FoundPlace | null;
  readonly stood: StoodThen | null;
  readonly restoring: RestorationView | null;
  /** Null when the viewer belongs to no other piece of the music. */
  readonly merge: MergeView | null;
}
