import { sayDay } from "@/app/_ui/say-date";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { isUpcoming, occasionWords } from "./say-performance";

type Played = Pick<
  PerformanceRecord,
  "pieceId" | "on" | "startsAt" | "realSeconds" | "editionNumber" | "kind" | "isRemoved"
>;

/**
 * The last time a piece was played: the latest performance that is not still ahead and was not taken off.
 *
 * @param today ISO 8601 date.
 */
export function findLastPlayed<P extends Played>(performances: readonly P[], today: string): P | null {
  const when = ({ on, startsAt }: P) => `${on} ${startsAt ?? ""}`;
  const played = performances.filter(
    (performance) => !performance.isRemoved && performance.on <= today && !isUpcoming(performance, today),
  );
  return played.reduce<P | null>((last, one) => (last === null || when(one) > when(last) ? one : last), null);
}

/** "last played as № 3 on Sat 14 Feb", and that it was a run-through where it was one. */
export function sayLastPlayed({ editionNumber, on, kind }: Played, now: Date): string {
  const how = kind === "run-through" ? `, a ${occasionWords[kind]}` : "";
  return `last played as № ${editionNumber} on ${sayDay(on, now)}${how}`;
}

/**
 * What a planned performance has to be told when its edition is no longer the newest: "№ 3 is planned; № 4 was frozen
 * since." Null while they are the same.
 */
export function sayNewerEdition(editionNumber: number, lastEdition: number | null): string | null {
  if (lastEdition === null || lastEdition <= editionNumber) return null;
  return `№ ${editionNumber} is planned; № ${lastEdition} was frozen since.`;
}
