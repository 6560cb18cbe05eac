import { addQuarters, laterOf, noQuarters } from "@/lib/score/quarters";
import type { KeptSpan, Place } from "../cut/kept-spans";
import { MeasureWriter } from "../cut/measure-writer";
import type { Mending } from "../cut/mending";
import type { PartEvent, PartMusic } from "../cut/part-events";

/**
 * Writes a measure anew, voice by voice, as for a bar that was cut.
 *
 * @param events of the bar, in the order in which they are to be written: see `orderInVoices`.
 * @param places of those that are shortened; all others stand where they say.
 */
export function rewriteMeasure(
  music: PartMusic,
  barIndex: number,
  events: readonly PartEvent[],
  places: ReadonlyMap<PartEvent, Place>,
): void {
  const bar = music.bars[barIndex];
  if (!bar) return;
  const reach = events.reduce((far, { at, length }) => laterOf(far, addQuarters(at, length)), bar.length);
  const whole: KeptSpan = {
    from: { barIndex, offset: noQuarters },
    to: { barIndex: barIndex + 1, offset: noQuarters },
  };
  const mending: Mending = {
    music: {
      ...music,
      bars: music.bars.map((each, index) => (index === barIndex ? { ...bar, events } : each)),
    },
    spans: [whole],
    placeOf: (event) => {
      const { at, length, isShortened } = places.get(event) ?? { ...event, isShortened: false };
      return { span: 0, at, length, isShortened };
    },
    removed: new Set(),
    atStart: [[]],
    atEnd: [[]],
  };
  const slice = { span: 0, barIndex, from: noQuarters, to: reach };
  bar.measure.children = new MeasureWriter(mending, { slices: [slice] }).write();
  // The width on paper was that of the bar as it was.
  delete bar.measure.attributes.width;
}
