/** The place of an instrument's hint on the hands screen, as an address names it. */
export function hintAnchor(instrumentKey: string): string {
  return `sound-of-${instrumentKey.toLowerCase().replace(/[^a-z]+/g, "")}`;
}
