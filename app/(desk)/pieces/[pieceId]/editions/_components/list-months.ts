/** More months than these are not listed; a day can always be asked for. */
const mostMonths = 36;

/** The months from the first of these days to the last or to today, the newest first: "2026-05". */
export function listMonths(days: readonly string[], today: string): string[] {
  const sorted = [...days, today].toSorted();
  const [first, last] = [sorted[0] ?? today, sorted.at(-1) ?? today];
  const months: string[] = [];
  let [year = 0, month = 1] = last.split("-").map(Number);
  while (months.length < mostMonths) {
    const name = `${year}-${`${month}`.padStart(2, "0")}`;
    if (name < first.slice(0, 7)) break;
    months.push(name);
    [year, month] = month === 1 ? [year - 1, 12] : [year, month - 1];
  }
  return months;
}
