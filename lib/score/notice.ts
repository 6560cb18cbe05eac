/** Something in a source that was wrong and survivable: what, where, and what was done about it. */
export interface Notice {
  readonly kind: string;
  /** One sentence for the reader. */
  readonly sentence: string;
  readonly partName: string | null;
  /** Printed label of the bar. */
  readonly barLabel: string | null;
}
