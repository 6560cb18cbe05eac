import type { EditionOnStand } from "./edition-on-stand";
import type { KeptOfProgramme } from "./find-kept";

type Named = EditionOnStand & { readonly title: string };

/**
 * How much of a programme opens on this device without a connection.
 *
 * @param editions everything that is played from it, each once.
 * @param isKeeping whether the rest is being put by.
 */
export function sayOnDevice(kept: KeptOfProgramme, editions: readonly Named[], isKeeping: boolean): string {
  const isHere = (edition: Named) => kept.editions.some((one) => isSame(one, edition));
  const missing = editions.filter((edition) => !isHere(edition));
  if (missing.length === 0 && kept.isPageKept)
    return "All of it is on this device: the programme and its editions open without a connection.";
  const here = `${editions.length - missing.length} of ${editions.length} ${editions.length === 1 ? "edition" : "editions"}`;
  if (isKeeping || missing.length === 0) return `It is being put on this device: ${here} so far.`;
  const names = missing.map(({ title, number }) => `${title}, № ${number}`).join("; ");
  return `On this device: ${here}. Not here yet: ${names}. Open this page once more with a connection.`;
}

function isSame(one: EditionOnStand, other: EditionOnStand): boolean {
  return one.pieceId === other.pieceId && one.number === other.number && one.reader === other.reader;
}
