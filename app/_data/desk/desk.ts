import type { Stretch, StripPiece } from "@/app/_ui/strip/strip-piece";
import type { BreathPreferences } from "@/lib/breath/breath-preferences";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import type { PositionTerms } from "@/lib/edition/position-terms";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import type { MemberRole } from "@/lib/store/who-may";

/** Somebody of the piece. */
export interface DeskPerson {
  readonly userId: string;
  readonly name: string;
  readonly initial: string;
  readonly role: MemberRole;
  /** No longer a member; their words stay. */
  readonly hasLeft: boolean;
}

/** A bar of the written order. */
export interface DeskBar {
  readonly label: string;
  /** In quarters, as text. */
  readonly length: string;
  /** Offsets at which a cut can begin or end inside the bar, in quarters as text, the bar line ("0") first. */
  readonly beats: readonly string[];
  /** What the solo does in it: "1:F#4 2.5:Bb4"; empty when it rests. */
  readonly solo: string;
}

export interface DeskTutti extends Stretch {
  readonly place: "opening" | "interlude" | "closing";
  readonly start: PositionTerms;
  readonly end: PositionTerms;
  readonly barCount: number;
  readonly firstLabel: string;
  readonly lastLabel: string;
  readonly isLong: boolean;
  /** The rehearsal letter at its first bar; null when none stands there. */
  readonly letter: string | null;
}

/** What a cut costs and gives, with the cuts that are agreed. Seconds. */
export interface DeskWeight {
  readonly barCount: number;
  readonly savedSeconds: number;
  readonly runningBefore: number;
  readonly runningAfter: number;
  /** The soloist's rest before the next entry; null when the cut touches no rest. */
  readonly rest: {
    readonly beforeSeconds: number;
    readonly afterSeconds: number;
    readonly nextEntry: { readonly text: string; readonly isLetter: boolean };
  } | null;
  readonly soloNotesLost: number;
}

export type DeskCutState = "open" | "agreed" | "declined" | "withdrawn" | "superseded" | "reopened";

export interface DeskAnswer {
  readonly userId: string;
  readonly answer: "agree" | "decline" | "counter" | "withdraw" | "reopen";
  readonly reason: string;
  /** ISO 8601, UTC. */
  readonly at: string;
}

export interface DeskCut {
  readonly id: string;
  readonly number: number;
  readonly state: DeskCutState;
  readonly proposedBy: string;
  /** ISO 8601, UTC. */
  readonly createdAt: string;
  readonly reason: string;
  /** What was found when it was put forward, as it was kept; null where nothing was. */
  readonly why: CutReasons | null;
  readonly termsHash: string;
  readonly from: PositionTerms;
  readonly to: PositionTerms;
  /** "bars 85–96". */
  readonly name: string;
  /** First and last bar it touches, by index. */
  readonly firstBar: number;
  readonly lastBar: number;
  readonly gaps: readonly Stretch[];
  /** Null for a cut that is laid aside or was proposed for another file. */
  readonly weight: DeskWeight | null;
  readonly answers: readonly DeskAnswer[];
  /** What it was put in the place of. */
  readonly instead: {
    readonly id: string;
    readonly name: string;
    readonly proposedBy: string;
    readonly savedSeconds: number;
  } | null;
  readonly frozenIn: readonly number[];
  /** The bars it names are those of a file that was replaced. */
  readonly isStale: boolean;
  readonly waitsForMe: boolean;
}

export interface DeskRunningTime {
  readonly seconds: number;
  readonly low: number;
  readonly high: number;
  readonly basis: "printed" | "assumed" | "own";
  readonly sentence: string;
}

/** What the running time was computed from. */
export interface DeskTimeEvidence {
  readonly tempi: readonly {
    readonly barLabel: string;
    readonly words: string | null;
    /** Counted beats a minute, as text. */
    readonly beats: string | null;
    readonly source: "printed" | "assumed" | "own";
  }[];
  readonly assumptions: readonly string[];
  readonly fermataFactor: number;
  readonly ritardandoTo: number;
  readonly timings: readonly { readonly name: string; readonly seconds: number }[];
}

/** All that the piece screen shows and computes with, as plain JSON. */
export interface Desk {
  readonly pieceId: string;
  readonly title: string;
  readonly soloName: string;
  /** Whether anything tells when the soloist plays. */
  readonly knowsSolo: boolean;
  readonly limitSeconds: number | null;
  readonly sourceHash: string;
  /** Changes when the engraved music does: with the file and the roles of its parts. */
  readonly musicStamp: string;
  /** Changes when what the pianist plays instead of the print does, as far as it is told or agreed. */
  readonly rewritesStamp: string;
  readonly me: DeskPerson;
  readonly people: readonly DeskPerson[];
  readonly may: { readonly propose: boolean; readonly comment: boolean; readonly readDiscussion: boolean };
  readonly bars: readonly DeskBar[];
  /** The staff of the score that cues are written over, the highest of the reduction: counted from the top, from 0. */
  readonly cueStaff: number;
  /** The strip without comments and breaths: those live in the room. */
  readonly strip: StripPiece;
  readonly tuttis: readonly DeskTutti[];
  readonly cuts: readonly DeskCut[];
  /** The soloist's needed rests on the bars of this file; those let go are among them, those taken off are not. */
  readonly needs: readonly RestNeed[];
  /** The soloist's own numbers; null until they are set. */
  readonly breath: BreathPreferences | null;
  readonly asWritten: DeskRunningTime;
  readonly agreed: DeskRunningTime;
  readonly evidence: DeskTimeEvidence;
  readonly settings: TempoTerms;
  /** Sentences about what was imperfect in the source. */
  readonly notices: readonly string[];
}
