import type { DeskBar } from "@/app/_data/desk/desk";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";

/** The beat at an offset, from 1, as players count: "1", "2½", "3.33". */
export function sayBeatOf(bar: Pick<DeskBar, "beats"> | undefined, offset: string): string {
  const at = numberOf(offset);
  const beat = numberOf(bar?.beats[1] ?? "1") || 1;
  const counted = Math.round((at / beat + 1) * 100) / 100;
  return Number.isInteger(counted * 2) && !Number.isInteger(counted)
    ? `${Math.floor(counted)}½`
    : `${counted}`;
}

function numberOf(text: string): number {
  const read = readQuarters(text);
  return read ? quartersAsNumber(read) : 0;
}
