import type { Bar } from "@/lib/score/bar";
import { addQuarters, isEqualQuarters, scaleQuarters } from "@/lib/score/quarters";
import { splitInValues } from "../cut/retype-note";
import { findTuplets, type TupletRatio, type ValueGroup } from "./find-tuplets";
import { beatsOf } from "./metre-beats";
import { splitAtBeats, type WrittenValue } from "./split-at-beats";
import { isRestEvent, type VoiceEvent, type WrittenPiece } from "./written-piece";

/**
 * How the events of one voice in one bar are printed: exact lengths in notated values, divided where ties are needed,
 * in tuplets where the lengths ask for them.
 *
 * @param events in order of time, none over another.
 */
export function spellVoice(
  events: readonly VoiceEvent[],
  bar: Pick<Bar, "metre" | "length">,
): WrittenPiece[] {
  return findTuplets(events).flatMap((group) => (group.ratio ? spellTuplet(group) : spellPlain(group, bar)));
}

function spellPlain({ events }: ValueGroup<VoiceEvent>, bar: Pick<Bar, "metre" | "length">): WrittenPiece[] {
  const beats = beatsOf(bar);
  return events.flatMap((event) => {
    const isBarRest = isRestEvent(event) && isEqualQuarters(event.length, bar.length);
    const values = isBarRest
      ? [{ at: event.at, length: event.length, value: null }]
      : splitAtBeats(event.at, event.length, beats);
    return values.map((value, index) => ({
      ...value,
      event,
      isFirst: index === 0,
      isLast: index === values.length - 1,
      isBarRest,
      ratio: null,
      tuplet: null,
    }));
  });
}

function spellTuplet({ events, ratio }: ValueGroup<VoiceEvent>): WrittenPiece[] {
  if (!ratio) return [];
  const pieces = events.flatMap((event) =>
    splitInTuplet(event, ratio).map((written, index, all) => ({
      ...written,
      event,
      isFirst: index === 0,
      isLast: index === all.length - 1,
    })),
  );
  return pieces.map((piece, index) => ({
    ...piece,
    isBarRest: false,
    ratio,
    tuplet: tupletEnd(index, pieces.length),
  }));
}

function splitInTuplet({ at, length }: VoiceEvent, { actual, normal }: TupletRatio): WrittenValue[] {
  const values = splitInValues(scaleQuarters(length, actual, normal));
  if (!values) return [{ at, length, value: null }];
  let next = at;
  return values.map((value) => {
    const written = { at: next, length: scaleQuarters(value.length, normal, actual), value };
    next = addQuarters(next, written.length);
    return written;
  });
}

function tupletEnd(index: number, count: number): WrittenPiece["tuplet"] {
  if (count < 2) return null;
  if (index === 0) return "start";
  return index === count - 1 ? "stop" : null;
}
