import type { RewriteEvent } from "@/lib/edition/rewrite-terms";
import type { Quarters } from "@/lib/score/quarters";
import type { NoteValue } from "../cut/retype-note";
import type { TupletRatio } from "./find-tuplets";

/** What sounds in one voice of one bar, from its place in the bar. */
export interface VoiceEvent {
  readonly at: Quarters;
  readonly length: Quarters;
  readonly terms: RewriteEvent;
  /** By place in `terms.pitches`: tied to the event before. */
  readonly tiedFrom: ReadonlySet<number>;
  /** By place in `terms.pitches`: tied to the event after. */
  readonly tiedTo: ReadonlySet<number>;
}

/** A note, chord or rest as it is printed: an event, or what a tie or a bar's beats divide it into. */
export interface WrittenPiece {
  readonly at: Quarters;
  readonly length: Quarters;
  readonly event: VoiceEvent;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly value: NoteValue | null;
  readonly isBarRest: boolean;
  readonly ratio: TupletRatio | null;
  /** Where the bracket of its tuplet begins or ends. */
  readonly tuplet: "start" | "stop" | null;
}

export const isRestEvent = ({ terms }: Pick<VoiceEvent, "terms">): boolean => terms.pitches.length === 0;

/** To and fro between two chords. */
export const isTwoNoteTremolo = ({ terms }: Pick<VoiceEvent, "terms">): boolean =>
  terms.tremolo !== null && terms.tremolo.other.length > 0 && terms.pitches.length > 0;
