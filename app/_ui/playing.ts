/** Where music is that is being played. */
export interface PlayingPlace {
  readonly barIndex: number;
  /** In seconds of the piece as written: what the strip counts in. */
  readonly pieceFrom: number;
  /** A note that is struck there; null where none is. */
  readonly noteId: string | null;
}

/** Tells where the music is, from attack to attack; `at` is null while nothing is played. */
export interface Playing {
  readonly subscribe: (listener: () => void) => () => void;
  readonly at: () => PlayingPlace | null;
}

export const nowhere = (): null => null;
