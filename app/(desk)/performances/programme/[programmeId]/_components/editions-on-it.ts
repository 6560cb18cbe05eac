import type { PlayedEdition } from "@/app/_offline/on-this-device";
import type { ProgrammeRecord } from "@/lib/store/programmes/programme-record";

/** What is read from the stand on a programme, in its order, each edition once; nothing that was taken off. */
export function listEditionsOnIt({ entries }: Pick<ProgrammeRecord, "entries">): PlayedEdition[] {
  const played = entries.flatMap((entry): PlayedEdition[] => {
    if (entry.kind !== "performance" || entry.performance.isRemoved) return [];
    const { pieceId, pieceTitle: title, editionNumber: number } = entry.performance;
    return [{ pieceId, number, reader: entry.reads, title }];
  });
  return [...new Map(played.map((edition) => [`${edition.pieceId} ${edition.number}`, edition])).values()];
}
