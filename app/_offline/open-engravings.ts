/** Where the engravings lie that this page has shown: address → the content it had. */
const shown = new Map<string, string>();
const listeners = new Set<() => void>();

/** The score view says which engraving it shows. */
export function noteEngraving(address: string, key: string): void {
  if (shown.get(address) === key) return;
  shown.set(address, key);
  for (const listener of listeners) listener();
}

/**
 * Addresses of the engravings of a piece that this page has shown.
 *
 * @param edition whose pages are meant; null for what the desk shows.
 */
export function listEngravings(pieceId: string, edition: number | null): string[] {
  const place = edition === null ? "engraving" : `editions/${edition}/reading`;
  return [...shown.keys()].filter((address) => address.startsWith(`/api/pieces/${pieceId}/${place}?`));
}

/** @returns stops it. */
export function onEngraving(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
