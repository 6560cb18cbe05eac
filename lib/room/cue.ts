import type { Position } from "@/lib/score/position";

/** The instrument that has the line from here: "Fl.", "Ob. solo". */
export interface Cue {
  readonly id: string;
  readonly authorId: string;
  readonly at: Position;
  readonly text: string;
}
