import { type Bar, type BarJumps, type BarRepeats, type Metre, noJumps, plainRepeats } from "@/lib/score/bar";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Token } from "./read-notation";
import { fillOf, type Timed } from "./time-line";

interface BarsText {
  readonly metre?: string;
  readonly key?: number;
  readonly labels?: readonly string[];
}

function readRepeats(tokens: readonly Token[], isInEnding: boolean): BarRepeats {
  const ending = tokens.flatMap((token) => (token.kind === "ending" ? [token.numbers] : []))[0] ?? null;
  const end = tokens.find((token) => token.kind === "repeat-end");
  const stops = (isInEnding || ending) && (end || tokens.some((token) => token.kind === "ending-stop"));
  return {
    startsRepeat: tokens.some((token) => token.kind === "repeat-start"),
    endsRepeatAfter: end?.kind === "repeat-end" ? end.times : null,
    startsEnding: ending,
    stopsEnding: stops ? (ending ?? []) : null,
  };
}

function readJumps(tokens: readonly Token[]): BarJumps {
  const texts = tokens.flatMap((token) => (token.kind === "jump" ? [token.text] : []));
  const mark = (name: string, pair: string) => (texts.includes(name) ? pair : null);
  return {
    segno: mark("segno", "segno"),
    coda: mark("coda", "coda"),
    toCoda: mark("tocoda", "coda"),
    dalSegno: mark("ds", "segno"),
    daCapo: texts.includes("dc"),
    fine: texts.includes("fine"),
  };
}

const metreOf = (beats: number, beatType: number): Metre => ({
  groups: [{ beats: [beats], beatType }],
  symbol: null,
});

/** The bars that all staves share, with the signs that stand in any of them. */
export function buildBars(text: BarsText, lines: readonly Timed[][][]): Bar[] {
  const [beats = 4, beatType = 4] = (text.metre ?? "4/4").split("/").map(Number);
  let metreLength = quarters(beats * 4, beatType);
  let metre = metreOf(beats, beatType);
  let fifths = text.key ?? 0;
  let endingNumbers: number[] | null = null;
  let start = noQuarters;
  const count = Math.max(0, ...lines.map((bars) => bars.length));
  const bars: Bar[] = [];
  for (let index = 0; index < count; index += 1) {
    const timed = lines.map((line) => line[index] ?? []);
    const tokens = timed.flat().map(({ token }) => token);
    for (const token of tokens) {
      if (token.kind === "metre") {
        metre = metreOf(token.beats, token.beatType);
        metreLength = quarters(token.beats * 4, token.beatType);
      }
      if (token.kind === "key") fifths = token.fifths;
    }
    const length = lengthOf(timed, metreLength, index);
    const repeats = readRepeats(tokens, endingNumbers !== null);
    endingNumbers = repeats.startsEnding ? [...repeats.startsEnding] : endingNumbers;
    const stopsEnding = repeats.stopsEnding ? endingNumbers : null;
    if (stopsEnding) endingNumbers = null;
    const isPickup = index === 0 && compareQuarters(length, metreLength) < 0 && count > 1;
    bars.push({
      id: `b${index}`,
      index,
      label: "",
      start,
      length,
      metreLength,
      metre,
      key: { fifths, mode: null },
      isPickup,
      isIrregular: !isPickup && compareQuarters(length, metreLength) !== 0,
      repeats: { ...plainRepeats, ...repeats, stopsEnding },
      jumps: { ...noJumps, ...readJumps(tokens) },
    });
    start = addQuarters(start, length);
  }
  const first = bars[0]?.isPickup ? 0 : 1;
  return bars.map((bar) => ({ ...bar, label: text.labels?.[bar.index] ?? `${bar.index + first}` }));
}

/** The length that all filled lines agree on; the metre's when there are only whole-bar rests. */
function lengthOf(timed: readonly (readonly Timed[])[], metreLength: Quarters, index: number): Quarters {
  const fills = timed.map(fillOf).filter((fill) => fill.num > 0);
  const [fill = metreLength] = fills;
  const other = fills.find((length) => compareQuarters(length, fill) !== 0);
  if (other) {
    throw new RangeError(
      `Bar index ${index} is ${writeQuarters(fill)} and ${writeQuarters(other)} quarters long`,
    );
  }
  return fill;
}
