import type { EngravedSystem } from "../screen-engraving";
import { lastSystemCost, systemCost } from "./page-cost";
import type { SystemChoice } from "./plan-breaks";

/** A bar as the engraver spaced it; rests gathered into one bar count as one. */
export interface SpacedBar {
  /** In the score that was engraved. */
  readonly barIndex: number;
  /** Without clef and key at the start of a system, in units of the pictures. */
  readonly width: number;
  /** Height of the system it stood in, in points. */
  readonly height: number;
  /** How far its words reach over its end: the engraver widens it by that when it ends a system. */
  readonly reach: number;
}

export interface SpacedMusic {
  readonly bars: readonly SpacedBar[];
  /** Room for bars in the first system, which is indented, and in the others. */
  readonly firstRoom: number;
  readonly room: number;
  /** The engraver's own systems, by the place of their first bar. */
  readonly own: ReadonlyMap<number, { readonly end: number; readonly height: number }>;
}

/** Clef and key at the start of a system, in staff spaces: measured on the engraver (verovio 6.3.0), two accidentals. */
const prefixSpaces = 6.5;
/** A bar is 4 staff spaces high, the fifth line included. */
const staffSpaces = 4;

/** A sign of words, in staff spaces. Measured on remarks and the words of files, which have 0.7 to 1. */
const signSpaces = 0.8;

/**
 * How the engraver spaced the music in the breaks of its own choice.
 *
 * @param signsAt signs of the longest line of words in a bar.
 */
export function readSpacing(
  systems: readonly EngravedSystem[],
  heightOf: (system: EngravedSystem) => number,
  signsAt: (barIndex: number) => number = () => 0,
): SpacedMusic {
  const rooms: number[] = [];
  const own = new Map<number, { end: number; height: number }>();
  let place = 0;
  for (const system of systems) {
    const end = place + system.bars.length;
    own.set(place, { end, height: heightOf(system) });
    place = end;
  }
  const bars = systems.flatMap((system) => {
    const prefix = prefixOf(system);
    rooms.push(system.bars.reduce((sum, { width }) => sum + width, -prefix));
    const height = Math.ceil(heightOf(system));
    return system.bars.map(({ barIndex, width: drawn }, place) => {
      const width = Math.max(1, place === 0 ? drawn - prefix : drawn);
      const words = signsAt(barIndex) * signSpaces * spaceOf(system);
      return { barIndex, width, height, reach: Math.max(0, words - width) };
    });
  });
  const room = Math.max(...rooms.slice(1), 0);
  return { bars, firstRoom: rooms[0] ?? 0, room: room > 0 ? room : (rooms[0] ?? 0), own };
}

const prefixOf = (system: EngravedSystem): number => spaceOf(system) * prefixSpaces;

/** A staff space of the lowest staff, in units of the picture. */
function spaceOf({ bars }: EngravedSystem): number {
  const staff = bars[0]?.staves.at(-1);
  return staff ? (staff.bottom - staff.top) / staffSpaces : 0;
}

/** The engraver's own spacing already stretches the notes: somewhat tighter still reads well. Seen on corpus pieces. */
const fullest = 1.08;
const emptiest = 0.55;
/** Of a place inside a system at which a line should begin: a letter, a double bar. */
const missedBreak = 1.5;
/** Of a system that is not the engraver's own: nothing to speak of, but lines change only where that helps. */
const otherLine = 0.3;

/**
 * The systems that may begin with each bar: neither crammed nor drawn apart, unless the piece ends or a pin follows.
 *
 * @param pins places in `music.bars` that begin a page.
 * @param wanted places in `music.bars` at which a line should begin when there is a choice.
 */
export function findSystemChoices(
  music: SpacedMusic,
  pins: ReadonlySet<number>,
  wanted: ReadonlySet<number>,
): (start: number) => SystemChoice[] {
  const { bars } = music;
  return (start) => {
    const room = start === 0 ? music.firstRoom : music.room;
    const own = music.own.get(start);
    const choices: (SystemChoice & { readonly fullness: number; readonly isOwn: boolean })[] = [];
    let [width, height, missed] = [0, 0, 0];
    for (let end = start + 1; end <= bars.length; end += 1) {
      const bar = bars[end - 1];
      if (!bar) break;
      width += bar.width;
      height = Math.max(height, bar.height);
      if (end - 1 > start && wanted.has(end - 1)) missed += missedBreak;
      const isOwn = end === own?.end;
      const isBeyondOwn = !own || end > own.end;
      if (width / room > fullest && choices.length > 0 && isBeyondOwn) break;
      const fullness = (width + (isOwn ? 0 : bar.reach)) / room;
      // Words that reach over the end of the system would cram what is before them.
      if (fullness > fullest && choices.length > 0 && !isOwn && !pins.has(end)) continue;
      const spacing = end === bars.length ? lastSystemCost(fullness) : systemCost(fullness);
      choices.push({
        ...{ end, fullness, isOwn },
        height: isOwn ? own.height : height,
        cost: missed + (isOwn ? 0 : otherLine + spacing),
      });
      if (pins.has(end)) break;
    }
    return choices.filter(
      ({ end, fullness, isOwn }, place) =>
        isOwn || place === choices.length - 1 || end === bars.length || fullness >= emptiest,
    );
  };
}
