import type { Desk } from "@/app/_data/desk/desk";
import { nameSpan } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import type { Stretch, StripPencil } from "@/app/_ui/strip/strip-piece";
import { type PositionTerms, toPositionTerms } from "@/lib/edition/position-terms";
import type { PencilledCut, PencilledVersion } from "@/lib/room/pencilled-cut";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import { firstName, personOf, sayWho } from "../_components/person";

/** The ends of a version as forms and proposals have them. */
export function termsOfVersion({ from, to }: Pick<PencilledVersion, "from" | "to">): {
  from: PositionTerms;
  to: PositionTerms;
} {
  return { from: toPositionTerms(from), to: toPositionTerms(to) };
}

/** "bars 9–16". */
export function nameVersion(bars: Desk["bars"], version: Pick<PencilledVersion, "from" | "to">): string {
  const { from, to } = termsOfVersion(version);
  return nameSpan(bars, from, to);
}

/** "Nerys: bars 9–16", "Matthis rubbed it out". */
export function sayVersion(desk: Pick<Desk, "people" | "me" | "bars">, version: PencilledVersion): string {
  const writer = personOf(desk, version.authorId);
  if (version.isRubbedOut)
    return writer.userId === desk.me.userId ? "You rubbed it out" : `${firstName(writer)} rubbed it out`;
  const who = sayWho(desk, writer);
  return `${who === "you" ? "You" : who}: ${nameVersion(desk.bars, version)}`;
}

/** How far into its bar a place is: 0 at the bar line, 1 at the next. */
function partOf({ bars }: Pick<Desk, "bars">, { barIndex, offset }: PositionTerms): number {
  const [at, length] = [readQuarters(offset), readQuarters(bars[barIndex]?.length ?? "")];
  if (!at || !length || length.num === 0) return 0;
  return Math.min(1, Math.max(0, quartersAsNumber(at) / quartersAsNumber(length)));
}

/** Every stretch of the strip between two written places, one for each time it sounds. Ends inside a bar are drawn by its length. */
export function stretchesOf(
  desk: Pick<Desk, "bars" | "strip">,
  from: PositionTerms,
  to: PositionTerms,
): Stretch[] {
  const stretches: { from: number; to: number; lastBar: number }[] = [];
  for (const bar of desk.strip.bars) {
    if (bar.barIndex < from.barIndex || bar.barIndex > to.barIndex) continue;
    const start = bar.barIndex === from.barIndex ? partOf(desk, from) : 0;
    const end = bar.barIndex === to.barIndex ? partOf(desk, to) : 1;
    if (end <= start) continue;
    const length = bar.to - bar.from;
    const [x, until] = [bar.from + length * start, bar.from + length * end];
    const open = stretches.at(-1);
    if (open && open.to === x && bar.barIndex === open.lastBar + 1)
      Object.assign(open, { to: until, lastBar: bar.barIndex });
    else stretches.push({ from: x, to: until, lastBar: bar.barIndex });
  }
  return stretches.map(({ from: start, to: end }) => ({ from: start, to: end }));
}

/** The pencil marks of the strip: each version that stands, in its writer's ink. */
export function pencilsOnStrip(
  desk: Pick<Desk, "bars" | "strip" | "people">,
  cuts: readonly PencilledCut[],
): StripPencil[] {
  return cuts
    .flatMap(({ versions }) => versions)
    .filter(({ isRubbedOut }) => !isRubbedOut)
    .map((version) => {
      const { from, to } = termsOfVersion(version);
      return {
        key: version.id,
        ink: inkOf(personOf(desk, version.authorId).role),
        gaps: stretchesOf(desk, from, to),
      };
    });
}
