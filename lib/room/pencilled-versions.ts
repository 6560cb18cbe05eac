import { compareVersions } from "./find-heads";
import type { PencilledVersionRecord } from "./pencilled-version-record";

/** All versions of each pencilled cut, in the order in which the cuts were first pencilled in. */
export function groupVersions(
  records: readonly PencilledVersionRecord[],
): Map<string, PencilledVersionRecord[]> {
  const cuts = new Map<string, PencilledVersionRecord[]>();
  for (const record of records.toSorted(compareVersions)) {
    const versions = cuts.get(record.cutId);
    if (versions) versions.push(record);
    else cuts.set(record.cutId, [record]);
  }
  return cuts;
}

/** What a version says, as one text that is equal for equal terms. */
export function termsOf({ from, to, isRubbedOut }: PencilledTerms): string {
  return JSON.stringify([from.barIndex, from.offset, to.barIndex, to.offset, isRubbedOut]);
}

/** Where a pencilled cut goes from and to, and whether it was rubbed out. */
export type PencilledTerms = Pick<PencilledVersionRecord, "from" | "to" | "isRubbedOut">;
