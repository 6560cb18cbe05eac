/** "1 bar", "24 bars". */
export function sayBarCount(count: number): string {
  return `${count} ${count === 1 ? "bar" : "bars"}`;
}
