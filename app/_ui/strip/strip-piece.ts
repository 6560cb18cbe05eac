import type { Ink } from "../party";

/** A stretch of the piece in seconds from its start as written, repeats taken, nothing cut; `to` exclusive. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A bar each time it sounds; a repeated bar is there twice. */
export interface StripBar extends Stretch {
  readonly barIndex: number;
  readonly label: string;
}

export interface StripTempo {
  readonly at: number;
  readonly words: string | null;
  /** Beats a minute as printed or assumed, already words ("110", "♩. = 60"); null when none is shown. */
  readonly beats: string | null;
}

export interface StripLetter {
  readonly at: number;
  readonly text: string;
}

export interface StripTutti extends Stretch {
  readonly barCount: number;
  readonly firstLabel: string;
  readonly lastLabel: string;
}

/** A cut that is open or agreed. Laid-aside ones are drawn nowhere. */
export interface StripCut {
  readonly id: string;
  readonly number: number;
  readonly state: "open" | "agreed";
  readonly ink: Ink;
  /** "bars 85–96". */
  readonly name: string;
  readonly barCount: number;
  readonly savedSeconds: number;
  /** Every stretch that falls out: one, or one for each time a repeated section is played. */
  readonly gaps: readonly Stretch[];
}

export interface StripNote {
  readonly at: number;
  readonly id: string;
  readonly ink: Ink;
}

export interface StripBreath {
  readonly at: number;
  readonly isAgreed: boolean;
}

/** What the soloist plays on one breath. */
export interface StripAirStretch extends Stretch {
  readonly seconds: number;
  /** Longer than is comfortable. */
  readonly isLong: boolean;
}

/** The soloist's air along the piece. */
export interface StripAir {
  readonly stretches: readonly StripAirStretch[];
  /** The longest comfortable stretch; null when that is not known or does not matter. */
  readonly comfortableSeconds: number | null;
}

/** A rest that the soloist asked for, drawn before the entry it is wanted for. */
export interface StripWish {
  readonly id: string;
  /** The moment of the entry. */
  readonly at: number;
  /** How long it is to be, in seconds of the clock; bars are drawn as long as they last there. */
  readonly seconds: number;
  /** "20 s", "4 bars". */
  readonly text: string;
  readonly isReleased: boolean;
}

/** How a bar lies under the pianist's hands, each time it sounds. */
export interface StripHandsBar extends Stretch {
  /** From 0 to 100; `comfortableDifficulty` is where it stops being comfortable. */
  readonly difficulty: number;
}

/** A passage that does not lie well as it is printed. */
export interface StripPassage extends Stretch {
  /** Bars by index, both included. */
  readonly firstBar: number;
  readonly lastBar: number;
  /** Something else is played there, or it was decided to play the print. */
  readonly isSolved: boolean;
}

/** A passage that the pianist does not yet play at its tempo. */
export interface StripTempoMark extends Stretch {
  /** "75→126": reached and wanted, beats a minute; without the first when nothing held yet. */
  readonly short: string;
  /** "bars 112–116: not yet at tempo: 75 of 126". */
  readonly words: string;
}

/** The row of the pianist's hands. Only the pianist has it. */
export interface StripHands {
  readonly bars: readonly StripHandsBar[];
  readonly passages: readonly StripPassage[];
  /** In time order. */
  readonly tempi?: readonly StripTempoMark[];
}

/** A cut that somebody pencilled in: nothing is proposed yet. */
export interface StripPencil {
  readonly key: string;
  /** Of its last writer. */
  readonly ink: Ink;
  /** Every stretch it would take out. */
  readonly gaps: readonly Stretch[];
}

/** Where somebody else looks now. */
export interface StripLook {
  readonly userId: string;
  readonly at: number;
  readonly ink: Ink;
  readonly initial: string;
}

/** All that the strip draws. Lists are in time order. */
export interface StripPiece {
  readonly totalSeconds: number;
  readonly soloName: string;
  readonly bars: readonly StripBar[];
  readonly tempi: readonly StripTempo[];
  readonly letters: readonly StripLetter[];
  readonly solo: readonly Stretch[];
  readonly tuttis: readonly StripTutti[];
  readonly cuts: readonly StripCut[];
  readonly breaths: readonly StripBreath[];
  readonly notes: readonly StripNote[];
  readonly pencils: readonly StripPencil[];
  /** Drawn where the strip has a row for it. */
  readonly air?: StripAir;
  readonly hands?: StripHands;
  readonly wishes?: readonly StripWish[];
}
