/** The value below which this part of the values lies, to a tenth; NaN when there are none. */
export function percentile(values: readonly number[], part: number): number {
  const sorted = Float64Array.from(values).sort();
  return Number((sorted[Math.floor(part * (sorted.length - 1))] ?? Number.NaN).toFixed(1));
}
