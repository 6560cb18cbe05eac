/** Whatever lies in bars, by bar index, in the order given. */
export function groupByBar<T extends { readonly barIndex: number }>(
  items: readonly T[],
): ReadonlyMap<number, T[]> {
  const byBar = new Map<number, T[]>();
  for (const item of items) {
    const bar = byBar.get(item.barIndex);
    if (bar) bar.push(item);
    else byBar.set(item.barIndex, [item]);
  }
  return byBar;
}
