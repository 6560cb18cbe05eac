import type { HandStroke } from "../hand-stroke";
import type { Strain } from "../strain";

/** A strain with the strokes it was found in, before it is told. */
export interface Found extends Pick<Strain, "kind" | "hand" | "load" | "isTimed" | "figure" | "limit"> {
  readonly strokes: readonly HandStroke[];
  readonly availableSeconds?: number;
}
