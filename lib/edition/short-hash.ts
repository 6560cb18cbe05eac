/** How much of a hash is shown, on screen and in the foot of a page: 64 bits, so that no two editions of a piece look alike. */
const shownLength = 16;

/** The beginning of a hash, as it is shown. */
export function shortHash(hash: string): string {
  return hash.slice(0, shownLength);
}
