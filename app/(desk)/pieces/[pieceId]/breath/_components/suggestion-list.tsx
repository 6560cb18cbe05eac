"use client";

import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Sheet } from "@/app/_ui/sheet";
import type { SuggestedBreath } from "@/lib/breath/suggest-breaths";
import { saySuggestion } from "./breath-marks";
import type { BreathPlace } from "./solo-places";
import styles from "./suggestion-list.module.css";

/** A breath that would help, and where it would stand. */
export interface Suggestion {
  readonly place: BreathPlace;
  readonly suggested: SuggestedBreath;
}

/** Where a breath would help, why, and one touch to take it. */
export function SuggestionList({
  suggestions,
  canMark,
  onTake,
  onGo,
}: {
  suggestions: readonly Suggestion[];
  canMark: boolean;
  onTake: (place: BreathPlace) => void;
  onGo: (place: BreathPlace) => void;
}) {
  return (
    <Sheet className={styles.list} aria-label="Where a breath would help">
      <h2>Where a breath would help</h2>
      {suggestions.length === 0 && (
        <p className={styles.none}>Nowhere: no stretch is longer than the long breath.</p>
      )}
      <ul>
        {suggestions.map(({ place, suggested }) => (
          <li key={place.key} aria-label={place.name}>
            <button type="button" className={styles.where} onClick={() => onGo(place)}>
              <b>{capital(place.name)}</b>
              <span>{saySuggestion(suggested)}</span>
            </button>
            {canMark && (
              <Button small onClick={() => onTake(place)}>
                Put it in
              </Button>
            )}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
