import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { DeskAnswer, DeskCutState } from "./desk";

/** Who is to see a rewrite. */
export type DeskSharing = "only_me" | "told" | "asked";

/** A version of a rewrite as the screen shows it. */
export interface DeskRewrite {
  readonly id: string;
  readonly number: number;
  readonly authorId: string;
  readonly terms: RewriteTerms;
  readonly termsHash: string;
  readonly sharing: DeskSharing;
  /** ISO 8601, UTC, like all times here. */
  readonly createdAt: string;
  readonly takenOffAt: string | null;
  /** The last time that the other player was asked about exactly these terms. */
  readonly proposal: {
    readonly id: string;
    readonly state: DeskCutState;
    readonly reason: string;
    readonly answers: readonly DeskAnswer[];
  } | null;
  /** What was said when it was told or asked last. */
  readonly reason: string;
  readonly frozenIn: readonly number[];
  /** It is in the working edition. */
  readonly stands: boolean;
  /** "bars 112–115". */
  readonly name: string;
  /** Bars by index, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  /** Its notes are those of the print: it was decided to play these bars as they are. */
  readonly isAsPrinted: boolean;
  /** Its bars are those of a file that was replaced. */
  readonly isStale: boolean;
  readonly waitsForMe: boolean;
}

/** The occasion that is practised for. */
export interface HandsPerformance {
  readonly name: string;
  /** "2027-02-14". */
  readonly on: string;
}

/** The duo's own words on sounding like an instrument; empty ones went back to the usual. */
export interface DeskHint {
  /** As its cue names it: "Fl.", "Cor.". */
  readonly instrument: string;
  readonly text: string;
  readonly authorName: string;
  readonly at: string;
}

/** What the hands screen knows beside the desk. */
export interface HandsDesk {
  /** The pianist's own, and nobody else's: null for every other member. */
  readonly mine: {
    readonly profile: HandsProfile;
    /** Null while the usual hands hold. */
    readonly givenAt: string | null;
    readonly practice: readonly PracticeRecord[];
  } | null;
  /** Versions that hold or can be brought back, by number; of each number those that another replaced are left out. */
  readonly rewrites: readonly DeskRewrite[];
  readonly performance: HandsPerformance | null;
  /** Every text that was written, the newest first. */
  readonly hints: readonly DeskHint[];
}
