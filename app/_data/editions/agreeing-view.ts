/** One sentence of what changed. */
export interface SaidChange {
  readonly sentence: string;
  /** Negative when it becomes shorter. */
  readonly secondsLonger: number;
}

/** From where the list of what changed goes. */
export type SeenSince =
  /** What the viewer last agreed to, when that was not what the last edition was made of. */
  | { readonly kind: "my yes"; readonly at: string; readonly isTakenBack: boolean }
  | { readonly kind: "edition"; readonly number: number }
  | { readonly kind: "print" };

/** What a player has to have seen before they agree to exactly the content with this hash. */
export interface AgreeingView {
  /** Of the content that the list is told from: what is sent with a yes. */
  readonly hash: string;
  readonly since: SeenSince;
  /** Everything that changed since, in full. */
  readonly unseen: readonly SaidChange[];
  /** By which all of that together makes it longer, in seconds. */
  readonly secondsLonger: number;
  /** Players who agreed to an earlier state of it, and what changed since then; null where that is not known. */
  readonly overtaken: readonly {
    readonly userId: string;
    readonly at: string;
    readonly changes: readonly SaidChange[] | null;
  }[];
  /** `hashMarks` of the room at that moment. */
  readonly marksHash: string;
}
