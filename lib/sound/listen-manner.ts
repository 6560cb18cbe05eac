/** How it is played, whatever is played. */
export interface ListenManner {
  /** Percent of the duo's tempo; see `tempoPercents`. Everything is scaled alike, a held note and a pause too. */
  readonly tempoPercent: number;
  readonly hasSolo: boolean;
  /** The reduction, or the orchestra where there is no reduction. */
  readonly hasAccompaniment: boolean;
  readonly hasCountIn: boolean;
}

export const plainManner: ListenManner = {
  tempoPercent: 100,
  hasSolo: true,
  hasAccompaniment: true,
  hasCountIn: false,
};

/** The slowest and the fastest that may be chosen. The choice is ours. */
export const tempoPercents = { slowest: 30, fastest: 150 };
