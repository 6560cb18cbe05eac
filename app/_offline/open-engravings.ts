/** Where the engravings lie that this page has shown: address → the content it had. */
const shown = new Map<string, string>();
const listeners = new Set<() => void>();

/** The score view says which engraving it shows. */
export function noteEngraving(address: string, key: string): void {
  if (shown.get(address) === key) return;
  shown.set(address, key);
  for (const listener of listeners) listener();
}

/** Addresses of the engravings of a piece that this page has shown. */
export function listEngravings(pieceId: string): string[] {
  return [...shown.keys()].filter((address) => address.startsWith(`/api/pieces/${pieceId}/engraving?`));
}

/** @returns stops it. */
export function onEngraving(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
