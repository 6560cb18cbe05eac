import type { Desk } from "@/app/_data/desk/desk";
import type { Position } from "@/lib/score/position";

/** What an entry is called: by its rehearsal letter where one stands there, else by its bar. */
export interface EntryName {
  readonly text: string;
  readonly isLetter: boolean;
  readonly barIndex: number;
}

/** @param at where the soloist enters; with an upbeat the letter of the bar after it is meant. */
export function nameEntry({ strip, bars }: Pick<Desk, "strip" | "bars">, at: Position): EntryName {
  const letterAt = (index: number) => {
    const bar = strip.bars.find(({ barIndex }) => barIndex === index);
    return bar && strip.letters.find((letter) => Math.abs(letter.at - bar.from) < 0.02)?.text;
  };
  const letter = letterAt(at.barIndex) ?? (at.offset.num > 0 ? letterAt(at.barIndex + 1) : undefined);
  if (letter) return { text: letter, isLetter: true, barIndex: at.barIndex };
  return { text: `bar ${bars[at.barIndex]?.label ?? ""}`, isLetter: false, barIndex: at.barIndex };
}

/** "E", "bar 31": in running text. */
export function sayEntry({ text, isLetter }: EntryName): string {
  return isLetter ? `letter ${text}` : text;
}
