import { addQuarters, laterOf, noQuarters, type Quarters, quarters } from "@/lib/score/quarters";
import { readNotation, type Token } from "./read-notation";

/** One list of tokens for each bar; `R*3` becomes three bars. */
function splitBars(tokens: readonly Token[]): Token[][] {
  const bars: Token[][] = [[]];
  for (const token of tokens) {
    // Two bar lines beside each other are one: `:| |:`.
    if (token.kind === "bar-line" && bars.at(-1)?.length !== 0) bars.push([]);
    else if (token.kind === "bar-line") continue;
    else if (token.kind === "whole-bar-rest") {
      for (let time = 0; time < token.times; time += 1) {
        if (time > 0) bars.push([]);
        bars.at(-1)?.push({ ...token, times: 1 });
      }
    } else bars.at(-1)?.push(token);
  }
  // A bar line at either end of the text is no empty bar.
  if (bars.at(-1)?.length === 0) bars.pop();
  return bars;
}

const isGrace = (token: Token) => token.kind === "notes" && token.flags.includes("grace");

/** A token with its place in its bar; signs have no duration. */
export interface Timed {
  readonly token: Token;
  readonly offset: Quarters;
  readonly duration: Quarters;
}

/** The tokens of one staff by bar, each with its offset and length; note values carry over from note to note. */
export function timeLine(text: string): Timed[][] {
  let value = quarters(1);
  return splitBars(readNotation(text)).map((tokens) => {
    let offset = noQuarters;
    return tokens.map((token) => {
      if (token.kind !== "notes" && token.kind !== "rest") return { token, offset, duration: noQuarters };
      value = token.duration ?? value;
      const timed = { token, offset, duration: isGrace(token) ? noQuarters : value };
      offset = addQuarters(offset, timed.duration);
      return timed;
    });
  });
}

/** How much of a bar a staff fills. */
export function fillOf(bar: readonly Timed[]): Quarters {
  return bar.reduce((end, { offset, duration }) => laterOf(end, addQuarters(offset, duration)), noQuarters);
}
