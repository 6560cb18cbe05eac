import type { Quarters } from "./quarters";

/** One time signature; several groups for composite metres such as 3/8 + 2/4. */
export interface Metre {
  /** Each group's beats as printed ("3+2" is `[3, 2]`) over one beat type. Empty for senza misura. */
  readonly groups: readonly { readonly beats: readonly number[]; readonly beatType: number }[];
  readonly symbol: "common" | "cut" | "single-number" | "note" | "dotted-note" | "normal" | null;
}

/** Key signature at sounding pitch. `fifths` counts sharps (positive) or flats (negative); null for a non-traditional key. */
export interface KeySignature {
  readonly fifths: number | null;
  readonly mode: string | null;
}

/** What is printed on a bar line that changes the order in which the bars sound. */
export interface BarRepeats {
  readonly startsRepeat: boolean;
  /** How many times the repeated section is played in all; null when no repeat ends here. */
  readonly endsRepeatAfter: number | null;
  /** Ending numbers that start with this bar ("1, 2" is `[1, 2]`); null when none starts. */
  readonly startsEnding: readonly number[] | null;
  /** Ending numbers that stop with this bar; null when none stops. */
  readonly stopsEnding: readonly number[] | null;
}

/** Jump marks, by the names that pair them (usually "segno" or "coda"). */
export interface BarJumps {
  readonly segno: string | null;
  readonly coda: string | null;
  readonly toCoda: string | null;
  readonly dalSegno: string | null;
  readonly daCapo: boolean;
  readonly fine: boolean;
}

/** One bar of the whole score; all parts share it. */
export interface Bar {
  /** Stable for the life of the source: the `id` of the measure in the first part. */
  readonly id: string;
  /** Place in the written order, from 0. */
  readonly index: number;
  /** The printed number ("0", "12", "X1"). Never computed with. */
  readonly label: string;
  /** Written time from the start of the piece. */
  readonly start: Quarters;
  /** As written, which may differ from the metre. */
  readonly length: Quarters;
  /** What the metre asks for; equals `length` in senza misura. */
  readonly metreLength: Quarters;
  readonly metre: Metre;
  readonly key: KeySignature;
  /** A shorter first bar, or one marked `implicit` that starts a phrase. */
  readonly isPickup: boolean;
  /** `length` differs from `metreLength` and it is no pickup. */
  readonly isIrregular: boolean;
  readonly repeats: BarRepeats;
  readonly jumps: BarJumps;
}

export const plainRepeats: BarRepeats = {
  startsRepeat: false,
  endsRepeatAfter: null,
  startsEnding: null,
  stopsEnding: null,
};

export const noJumps: BarJumps = {
  segno: null,
  coda: null,
  toCoda: null,
  dalSegno: null,
  daCapo: false,
  fine: false,
};
