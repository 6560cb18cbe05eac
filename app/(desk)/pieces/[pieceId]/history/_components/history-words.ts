import type { HistoryChoice, HistoryRow } from "@/app/_data/desk/read-history";
import type { RoomMapName } from "@/lib/room/room-keys";
import { sayLocalDay } from "../../_components/say-moment";

export const kindNames: readonly { readonly map: RoomMapName; readonly name: string }[] = [
  { map: "comments", name: "Comments" },
  { map: "resolutions", name: "Resolved" },
  { map: "breaths", name: "Breaths" },
  { map: "cues", name: "Cues" },
  { map: "pencilledCuts", name: "Pencil" },
];

/** The address of the history with these filters, at this page of it, with this state looked at. */
export function historyAddress(
  pieceId: string,
  { userId, map }: HistoryChoice,
  { before, at }: { before?: number; at?: number } = {},
): string {
  const query = new URLSearchParams();
  if (userId !== null) query.set("by", userId);
  if (map !== null) query.set("kind", map);
  if (before !== undefined) query.set("before", `${before}`);
  if (at !== undefined) query.set("at", `${at}`);
  return `/pieces/${pieceId}/history${query.size > 0 ? `?${query}` : ""}`;
}

/** Rows under the name of their day, in their order. */
export function groupByDay(
  rows: readonly HistoryRow[],
  now: Date,
  timeZone?: string,
): { day: string; rows: HistoryRow[] }[] {
  const days: { day: string; rows: HistoryRow[] }[] = [];
  for (const row of rows) {
    const said = sayLocalDay(row.at, now, timeZone);
    const day = said === "today" ? "Today" : said;
    const last = days.at(-1);
    if (last?.day === day) last.rows.push(row);
    else days.push({ day, rows: [row] });
  }
  return days;
}
