import type { PartRole } from "@/lib/score/part";
import type { Quarters } from "@/lib/score/quarters";

/** One sounding note. Tied notes are one. Seconds from the first beat of the music. */
export interface ScheduledNote {
  /** Of the written note that is struck. */
  readonly noteId: string;
  readonly role: PartRole;
  /** Number, from 0, of the part among `voices`. */
  readonly voice: number;
  /** MIDI channel from 0; never the drums'. */
  readonly channel: number;
  /** Whole semitones, 60 for middle C, at sounding pitch. */
  readonly midi: number;
  readonly onsetSeconds: number;
  readonly endSeconds: number;
  /** 1 to 127. */
  readonly velocity: number;
  /** 1 is the upper staff of the part. */
  readonly staff: number;
  readonly isGrace: boolean;
}

/** A part as it is played. */
export interface ScheduledVoice {
  readonly partId: string;
  readonly partName: string;
  readonly role: PartRole;
  /** MIDI channel from 0; never the drums'. */
  readonly channel: number;
  /** General MIDI program from 0, one that the sound bank has. */
  readonly program: number;
  /** "trombone played by horn" when the bank lacks the instrument; null when it has it. */
  readonly substituted: string | null;
}

/** A stretch between two neighbouring attacks or bar lines: for following on score and strip. */
export interface ScheduledPlace {
  readonly barIndex: number;
  /** In which round of a repeat, from 1. */
  readonly pass: number;
  /** Inside the bar. */
  readonly offset: Quarters;
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** The same stretch in seconds of the piece as written, nothing cut, at the duo's tempo: what the strip counts in. */
  readonly pieceFrom: number;
  readonly pieceTo: number;
  /** A note that is struck here; null where none is. */
  readonly noteId: string | null;
}

/** A place where the music goes on behind a cut. */
export interface ScheduledSeam {
  readonly seconds: number;
  /** Index of the last bar before and the first behind it. */
  readonly fromBar: number;
  readonly toBar: number;
}

/** What is heard one after the other; one section unless both sides of a join are heard in turn. */
export interface ScheduledSection {
  readonly kind: "as-asked" | "with-the-cut" | "without-it";
  readonly startSeconds: number;
  readonly endSeconds: number;
}

export interface CountInClick {
  /** Negative: before the music. */
  readonly seconds: number;
  /** The first beat of a bar. */
  readonly isFirst: boolean;
}

/** Everything that sounds, and when. Plain data. */
export interface Schedule {
  /** By onset. */
  readonly notes: readonly ScheduledNote[];
  readonly voices: readonly ScheduledVoice[];
  /** By time; they follow one another, with a gap between two sections. */
  readonly places: readonly ScheduledPlace[];
  readonly seams: readonly ScheduledSeam[];
  readonly sections: readonly ScheduledSection[];
  readonly countIn: readonly CountInClick[];
  /** How long before the music the count-in begins; 0 without one. */
  readonly countInSeconds: number;
  /** Of the music, without the count-in. */
  readonly totalSeconds: number;
}
