import { expect, test } from "vitest";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { findPassages } from "@/lib/hands/find-passages";
import { usualHands } from "@/lib/hands/hands-profile";
import type { StrainKind } from "@/lib/hands/strain";
import { readTempoMap } from "@/lib/score/tempo-map";
import { UNPIANISTIC_PLACES, type UnpianisticPlace } from "@/seed/concertino/planted";
import { concertino } from "@/test/lib/cuts/join/hear-concertino";

const kinds: Readonly<Record<UnpianisticPlace["kind"], readonly StrainKind[]>> = {
  "repeated chords": ["repeated chord", "octaves in a row"],
  stretch: ["stretch"],
  leaps: ["leap"],
};

const { bars } = assessHands(concertino, readTempoMap(concertino), usualHands);
const passages = findPassages(bars.map((bar) => barAtTempo(bar, 1)));
const indexOf = (label: string) => concertino.bars.find((bar) => bar.label === label)?.index ?? -1;

test.each(UNPIANISTIC_PLACES)(
  "$kind in bars $bars.from to $bars.to are found, in the $hand hand",
  (place) => {
    const [from, to] = [indexOf(place.bars.from), indexOf(place.bars.to)];
    const found = passages.filter(({ fromBar, toBar }) => fromBar <= to && toBar >= from);
    expect(found.map(({ kind, hand }) => [kinds[place.kind].includes(kind), hand])).toEqual([
      [true, place.hand],
    ]);
  },
);

test("strokes and reach are what was planted", () => {
  const figures = UNPIANISTIC_PLACES.filter(({ kind }) => kind !== "leaps").map(
    ({ bars: planted, measure }) => {
      const from = indexOf(planted.from);
      const figure = passages.find(({ fromBar }) => fromBar === from)?.strain.figure ?? 0;
      return [Math.round(figure * 10) / 10, measure];
    },
  );
  expect(figures.map(([found]) => found)).toEqual(figures.map(([, planted]) => planted));
});

test("nothing else of the concertino is awkward", () =>
  expect(passages).toHaveLength(UNPIANISTIC_PLACES.length));
