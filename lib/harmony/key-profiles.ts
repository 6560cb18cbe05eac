/** How often, or how well, each pitch class goes with a key, from the tonic upward in semitones. */
export type Profile = readonly number[];

export interface KeyProfiles {
  readonly major: Profile;
  readonly minor: Profile;
}

/**
 * Probe-tone ratings of listeners, 1 to 7.
 *
 * Source: Krumhansl and Kessler, “Tracing the dynamic changes in perceived tonal organization in a spatial
 * representation of musical keys”, Psychological Review 89 (1982).
 */
export const krumhanslKessler: KeyProfiles = {
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};

/**
 * The share of short segments in each key that contain the pitch class, counted in the excerpts of the Kostka–Payne
 * harmony textbook.
 *
 * Source: Temperley, Music and Probability (MIT Press, 2007).
 */
export const kostkaPayne: KeyProfiles = {
  major: [0.748, 0.06, 0.488, 0.082, 0.67, 0.46, 0.096, 0.715, 0.104, 0.366, 0.057, 0.4],
  minor: [0.712, 0.084, 0.474, 0.618, 0.049, 0.46, 0.105, 0.747, 0.404, 0.067, 0.133, 0.33],
};

/**
 * Adjusted by hand from the probe-tone ratings.
 *
 * Source: Temperley, “What's key for key? The Krumhansl–Schmuckler key-finding algorithm reconsidered”, Music
 * Perception 17 (1999).
 */
export const temperley: KeyProfiles = {
  major: [5, 2, 3.5, 2, 4.5, 4, 2, 4.5, 2, 3.5, 1.5, 4],
  minor: [5, 2, 3.5, 4.5, 2, 4, 2, 4.5, 3.5, 2, 1.5, 4],
};

/**
 * Shares of sounding time in the first and last bars of pieces, meant to be compared by Euclidean distance.
 *
 * Source: Albrecht and Shanahan, “The use of large corpora to train a new type of key-finding algorithm”, Music
 * Perception 31 (2013).
 */
export const albrechtShanahan: KeyProfiles = {
  major: [0.238, 0.006, 0.111, 0.006, 0.137, 0.094, 0.016, 0.214, 0.009, 0.08, 0.008, 0.081],
  minor: [0.22, 0.006, 0.104, 0.123, 0.019, 0.103, 0.012, 0.214, 0.062, 0.022, 0.061, 0.052],
};
