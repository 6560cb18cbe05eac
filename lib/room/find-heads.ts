import type { PencilledVersionRecord } from "./pencilled-version-record";

/**
 * The versions of one pencilled cut that nobody has written over, in the order in which they were written.
 *
 * @param versions all versions of one cut. Versions that name each other in a circle, which only a faulty program
 * writes, hide nothing: the earliest of them stands.
 */
export function findHeads(versions: readonly PencilledVersionRecord[]): PencilledVersionRecord[] {
  const inOrder = versions.toSorted(compareVersions);
  const byId = new Map(inOrder.map((version) => [version.id, version]));
  const covered = new Set(inOrder.flatMap(({ over }) => over));
  const reached = new Set<string>();
  const heads = inOrder.filter(({ id }) => !covered.has(id));
  for (const head of heads) reach(head.id, byId, reached);
  for (const version of inOrder) {
    if (reached.has(version.id)) continue;
    heads.push(version);
    reach(version.id, byId, reached);
  }
  return heads.sort(compareVersions);
}

/** By time, then by id, so that everybody has the same order. */
export function compareVersions(a: PencilledVersionRecord, b: PencilledVersionRecord): number {
  return compareText(a.createdAt, b.createdAt) || compareText(a.id, b.id);
}

function reach(from: string, byId: ReadonlyMap<string, PencilledVersionRecord>, reached: Set<string>): void {
  const open = [from];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const version = byId.get(id);
    if (version === undefined || reached.has(id)) continue;
    reached.add(id);
    open.push(...version.over);
  }
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
