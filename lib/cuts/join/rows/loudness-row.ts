import type { JoinEdges } from "../join-edges";
import type { JoinRow } from "../join-row";
import { phraseBegins } from "../places";
import { sayLevel } from "../say-music";

/** From here on a step of printed levels is a contrast: p to mf. Source: common practice. */
const contrast = 2;

/** Levels as marked, softest and loudest of the parts are averaged. */
const stateOf = (level: number, hairpin: number): string => {
  const name = Number.isNaN(level) ? "no printed level" : sayLevel(level);
  if (hairpin === 0) return name;
  return `${name} with a ${hairpin > 0 ? "crescendo" : "diminuendo"}`;
};

/** How loud both sides are, and whether a hairpin is torn. */
export function assessLoudness(edges: JoinEdges): JoinRow | null {
  const { heard, cut, before, after, fromTicks, toTicks } = edges;
  if (!before || !after) return null;
  const difference = Math.abs(before.level - after.level);
  const isKnown = !Number.isNaN(difference);
  const isTorn = before.hairpin !== after.hairpin;
  const isRare = isKnown && difference >= contrast && heard.jumps.shareAsLarge("level", difference) < 0.1;
  const beginsPhrase = edges.toPlace.phraseStart >= phraseBegins;
  const isSudden = isRare && !beginsPhrase;
  const [from, to] = [stateOf(before.level, before.hairpin), stateOf(after.level, after.hairpin)];
  const level = from === to ? `Both sides are ${from}` : `From ${from} to ${to}`;
  const torn = heard.sides.signs.hairpins.some(
    (hairpin) =>
      (hairpin.from < fromTicks && hairpin.to > fromTicks) ||
      (hairpin.from < toTicks && hairpin.to > toTicks),
  );
  return {
    kind: "loudness",
    grade: isTorn || isSudden ? "needs-a-touch" : "clean",
    sentence: isTorn ? `${level}: the hairpin is torn.` : isSudden ? `${level}, suddenly.` : `${level}.`,
    figures: {
      levelBefore: Number.isNaN(before.level) ? null : before.level,
      levelAfter: Number.isNaN(after.level) ? null : after.level,
      hairpinBefore: before.hairpin,
      hairpinAfter: after.hairpin,
      hairpinCrosses: torn,
    },
    noteIds: [],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
}
