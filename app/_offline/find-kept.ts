import { type EditionOnStand, pageOfEdition, planOfEdition } from "./edition-on-stand";
import { listPictures } from "./kept-engraving";
import { KeptStore } from "./kept-store";

/** What of a programme opens on this device without a connection. */
export interface KeptOfProgramme {
  /** Whether its own page does. */
  readonly isPageKept: boolean;
  /** Those whose pages are there to the last picture. */
  readonly editions: readonly EditionOnStand[];
}

/**
 * Looks through what is kept in this browser.
 *
 * @param userId whose: what is kept of somebody else is shown to nobody.
 * @param page the programme's own address.
 */
export async function findKept(
  userId: string,
  page: string,
  editions: readonly EditionOnStand[],
): Promise<KeptOfProgramme> {
  const store = await KeptStore.open();
  const list = await store.readList();
  if (list?.userId !== userId) return { isPageKept: false, editions: [] };
  const kept = new Set(list.pieces.flatMap(({ parts }) => parts.map(({ address }) => address)));
  const isWhole = async (edition: EditionOnStand) => {
    const plan = planOfEdition(edition);
    const text = await (await store.find(plan))?.text();
    const pictures = text === undefined ? null : listPictures(plan, text);
    if (pictures === null) return false;
    return [pageOfEdition(edition), plan, ...pictures].every((address) => kept.has(address));
  };
  const whole = await Promise.all(editions.map(isWhole));
  return { isPageKept: kept.has(page), editions: editions.filter((_, index) => whole[index]) };
}
