import type { Quarters } from "./quarters";

interface Placed {
  readonly barIndex: number;
  /** Written time from the start of the piece. */
  readonly onset: Quarters;
  readonly staff: number;
}

/** What is printed at a place of a part and is no note (MusicXML 4.0, `direction-type`). */
export type Direction =
  | (Placed & { readonly kind: "dynamic"; readonly mark: string })
  | (Placed & {
      readonly kind: "wedge";
      readonly type: "crescendo" | "diminuendo" | "stop" | "continue";
      readonly number: number;
    })
  | (Placed & { readonly kind: "words"; readonly text: string })
  | (Placed & { readonly kind: "rehearsal"; readonly text: string })
  | (Placed & {
      readonly kind: "octave-shift";
      readonly type: "up" | "down" | "stop" | "continue";
      readonly size: number;
      readonly number: number;
    })
  | (Placed & { readonly kind: "pedal"; readonly type: string });
