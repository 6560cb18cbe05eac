import type { Pitch } from "./pitch";
import type { Quarters } from "./quarters";

/** A slur end on a note; `number` pairs start and stop within a part. */
export interface SlurEnd {
  readonly number: number;
  readonly type: "start" | "stop" | "continue";
}

export interface Tremolo {
  /** `single` repeats one note or chord; `start`/`stop` are the two notes that alternate. */
  readonly type: "single" | "start" | "stop" | "unmeasured";
  readonly marks: number;
  /**
   * Of a note or chord that is repeated in a tuplet: so many in the time of so many. Without it there is none; two notes
   * that alternate never have one, because files write their double value so.
   */
  readonly tuplet?: { readonly actual: number; readonly normal: number };
}

/** A sounding note, as written on the page. */
export interface Note {
  /** Stable for the life of the source, and the id of its picture when engraved. */
  readonly id: string;
  readonly barIndex: number;
  /** Written time from the start of the piece. A grace note has the onset of the note it leads to. */
  readonly onset: Quarters;
  /** 0 for a grace note. */
  readonly duration: Quarters;
  /** Null for an unpitched note. Octave shifts (8va) are already in it, as MusicXML has it. */
  readonly written: Pitch | null;
  readonly sounding: Pitch | null;
  readonly voice: string;
  /** 1 is the upper staff of the part. */
  readonly staff: number;
  /** Member of a chord that another note began. */
  readonly isChordMember: boolean;
  readonly isGrace: boolean;
  readonly isCue: boolean;
  /** `print-object="no"`. */
  readonly isHidden: boolean;
  readonly tieStart: boolean;
  readonly tieStop: boolean;
  readonly tremolo: Tremolo | null;
  /** MusicXML element names: "staccato", "accent", "breath-mark", "caesura"… */
  readonly articulations: readonly string[];
  /** MusicXML element names: "trill-mark", "turn"… */
  readonly ornaments: readonly string[];
  readonly hasFermata: boolean;
  /** The chord is broken (`arpeggiate`); said by each of its notes that has the sign. */
  readonly isArpeggiated: boolean;
  readonly slurs: readonly SlurEnd[];
  /** Sung text of the first verse, as printed; null when none. */
  readonly lyric: string | null;
}

export interface Rest {
  readonly id: string;
  readonly barIndex: number;
  readonly onset: Quarters;
  readonly duration: Quarters;
  readonly voice: string;
  readonly staff: number;
  readonly isCue: boolean;
  readonly isHidden: boolean;
  /** The bar's own rest, whatever the metre (`measure="yes"`). */
  readonly isWholeBar: boolean;
  readonly hasFermata: boolean;
}
