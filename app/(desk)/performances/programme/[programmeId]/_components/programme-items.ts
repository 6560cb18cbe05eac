import type { ProgrammeEntry } from "@/lib/store/programmes/programme-record";

/** An entry as `changeProgrammeAction` takes it. */
export type ProgrammeItem = { readonly gapSeconds: number } & (
  | { readonly kind: "kept"; readonly itemId: string }
  | { readonly kind: "performance"; readonly performanceId: string }
  | { readonly kind: "piece"; readonly pieceId: string; readonly editionNumber: number }
  | WordsItem
);

/** What is not prepared here. */
export interface WordsItem {
  readonly kind: "words";
  readonly title: string;
  readonly plannedSeconds: number | null;
  readonly realSeconds: number | null;
}

/** The entries as they stand. */
export function keepAll(entries: readonly ProgrammeEntry[]): ProgrammeItem[] {
  return entries.map(({ itemId, gapSeconds }) => ({ kind: "kept", itemId, gapSeconds }));
}

/** The items with the one at `index` one place earlier (-1) or later (1); the same where there is no such place. */
export function moveItem(items: readonly ProgrammeItem[], index: number, by: -1 | 1): ProgrammeItem[] {
  const moved = [...items];
  const [one, other] = [moved[index], moved[index + by]];
  if (one && other) [moved[index], moved[index + by]] = [other, one];
  return moved;
}

export function replaceItem(
  items: readonly ProgrammeItem[],
  index: number,
  by: ProgrammeItem,
): ProgrammeItem[] {
  return items.map((item, at) => (at === index ? by : item));
}

export function withoutItem(items: readonly ProgrammeItem[], index: number): ProgrammeItem[] {
  return items.filter((_, at) => at !== index);
}
