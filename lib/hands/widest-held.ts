/** A key that went down or came up. */
export interface KeyMove {
  readonly midi: number;
  readonly isDown: boolean;
  /** In milliseconds of one clock. */
  readonly at: number;
}

/** A chord has to be held this long to count as held: long enough that it was no slip. Ours. */
export const heldMilliseconds = 400;

export interface HeldChord {
  readonly lowest: number;
  readonly highest: number;
  readonly spanSemitones: number;
}

/**
 * The widest chord that was held: the keys that were all down together for `heldMilliseconds`. Null when there was none of two
 * keys.
 *
 * @param moves in the order in which they happened.
 * @param now the moment up to which keys that are still down were held.
 */
export function findWidestHeld(moves: readonly KeyMove[], now: number): HeldChord | null {
  const down = new Map<number, number>();
  let widest: HeldChord | null = null;
  const look = (at: number) => {
    const held = [...down]
      .filter(([, since]) => at - since >= heldMilliseconds)
      .map(([midi]) => midi)
      .sort((a, b) => a - b);
    const [lowest, highest] = [held[0], held.at(-1)];
    if (lowest === undefined || highest === undefined || lowest === highest) return;
    if (highest - lowest <= (widest?.spanSemitones ?? 0)) return;
    widest = { lowest, highest, spanSemitones: highest - lowest };
  };
  for (const { midi, isDown, at } of moves) {
    look(at);
    if (isDown) down.set(midi, at);
    else down.delete(midi);
  }
  look(now);
  return widest;
}
