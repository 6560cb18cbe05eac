import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { PassageBars } from "@/lib/practice/practice-passage";

/** Bars of the passages in these tests, unless others are given. */
export const here: PassageBars = { fromBar: 10, toBar: 13 };

/**
 * A log in a line: `96` held, `96-` did not, `96x` held and was taken off. One entry a minute, in quarters a minute, on the
 * first of March.
 */
export function logOf(text: string, bars: PassageBars = here): PracticeRecord[] {
  return text
    .split(" ")
    .filter(Boolean)
    .map((word, index) => ({
      id: `entry-${index}`,
      ...{ fromBar: bars.fromBar, toBar: bars.toBar, sourceHash: "0".repeat(64), note: "" },
      tempo: { beat: "1", perMinute: Number.parseInt(word, 10), held: !word.endsWith("-") },
      at: `2027-03-01T10:${`${index}`.padStart(2, "0")}:00.000Z`,
      removedAt: word.endsWith("x") ? "2027-03-02T10:00:00.000Z" : null,
    }));
}
