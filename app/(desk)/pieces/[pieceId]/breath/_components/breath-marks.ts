import type { Desk } from "@/app/_data/desk/desk";
import { type Ink, inkOf } from "@/app/_ui/party";
import type { SuggestedBreath } from "@/lib/breath/suggest-breaths";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { Breath } from "@/lib/room/breath";
import { firstName, personOf } from "../../_components/person";
import { sayAbout } from "./say-breath";
import { type BreathPlace, keyOfPosition, type NoteEnds } from "./solo-places";

/** A comma over the solo part. */
export interface BreathMark {
  readonly key: string;
  readonly at: PositionTerms;
  /** After which it stands; null where no note ends. */
  readonly noteId: string | null;
  readonly kind: "breath" | "new" | "suggested";
  readonly ink: Ink;
  readonly title: string;
}

/** The breaths that stand, once for each place. */
export function markBreaths(
  desk: Pick<Desk, "bars" | "people" | "me">,
  ends: NoteEnds,
  breaths: readonly Breath[],
  news: ReadonlySet<string>,
): BreathMark[] {
  const marks = new Map<string, BreathMark>();
  for (const { id, at, authorId } of breaths) {
    const key = keyOfPosition(desk.bars, at);
    const author = personOf(desk, authorId);
    const kind = news.has(id) ? "new" : "breath";
    const title = `${kind === "new" ? "New breath" : "Breath"}, ${firstName(author)}`;
    const noteId = ends.ends.get(key) ?? null;
    if (!marks.has(key))
      marks.set(key, { key, at: toPositionTerms(at), noteId, kind, title, ink: inkOf(author.role) });
  }
  return [...marks.values()];
}

/** Breaths that would help, where none stands yet. */
export function markSuggestions(
  desk: Pick<Desk, "bars">,
  suggestions: readonly SuggestedBreath[],
  taken: ReadonlySet<string>,
): BreathMark[] {
  return suggestions.flatMap((suggested): BreathMark[] => {
    const key = keyOfPosition(desk.bars, suggested.at);
    if (taken.has(key)) return [];
    const title = `Suggested: ${saySuggestion(suggested)}`;
    const { afterNoteId: noteId, at } = suggested;
    return [{ ...{ key, noteId, title }, at: toPositionTerms(at), kind: "suggested", ink: "graphite" }];
  });
}

/** "after a slur; 9.2 s before it, 11 s after". */
export function saySuggestion({ reasons, secondsBefore, secondsAfter }: SuggestedBreath): string {
  const why = reasons.length > 0 ? `${reasons.join(", ")}; ` : "";
  return `${why}${sayAbout(secondsBefore)} before it, ${sayAbout(secondsAfter)} after`;
}

/** The place that something stands at; null when no note ends there. */
export function placeByKey(places: readonly BreathPlace[], key: string | null): BreathPlace | null {
  return places.find((place) => place.key === key) ?? null;
}
