import type { RestAmount } from "@/lib/edition/rest-need";

export type AmountUnit = "seconds" | "bars";

/** Reads "20", "0:20", "1:05" as seconds, or "4", "2.5" as bars; null for what is no length of a rest. */
export function readAmount(text: string, unit: AmountUnit): RestAmount | null {
  const trimmed = text.trim().replace(",", ".");
  if (unit === "bars") {
    const bars = /^\d{1,3}(\.[05])?$/.test(trimmed) ? Number(trimmed) : 0;
    return bars > 0 && bars <= 500 ? { bars } : null;
  }
  const clock = /^(\d{1,2}):([0-5]\d)$/.exec(trimmed);
  const plain = /^\d{1,4}(\.\d{1,2})?$/.test(trimmed) ? Number(trimmed) : 0;
  const seconds = clock ? Number(clock[1]) * 60 + Number(clock[2]) : plain;
  return seconds > 0 && seconds <= 3600 ? { seconds } : null;
}

/** What is wrong and what to do. */
export const amountProblem: Readonly<Record<AmountUnit, string>> = {
  seconds: "Write seconds (20) or minutes and seconds (1:05).",
  bars: "Write whole or half bars: 4, or 2.5.",
};
