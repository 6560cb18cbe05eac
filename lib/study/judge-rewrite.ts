import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { findPrintedOption } from "@/lib/hands/bar-strains";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { Strain } from "@/lib/hands/strain";
import { beyondReach } from "@/lib/hands/strains/stretch";
import type { StruckNote } from "@/lib/hands/struck-note";
import { timeNotes } from "@/lib/hands/time-notes";
import { type BarEvent, endOf, midiOf, soundedBy } from "@/lib/rewrites/bar-event";
import type { JudgeBar } from "@/lib/rewrites/choose-rewrites";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import type { Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  quartersAsNumber,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";
import { strokeLength } from "@/lib/score/tremolo-stroke";
import { readWrittenClock } from "@/lib/score/written-seconds";

/** From here on a hand has too few fingers, whatever the tempo. */
const tooMany = 2;

/** As `JudgeBar`, and why: the strains of the bar, the heaviest first. */
type JudgeBarWithReasons = (
  ...asked: Parameters<JudgeBar>
) => ReturnType<JudgeBar> & { readonly strains: readonly Strain[] };

/**
 * Judges versions of bars under these hands, each hand on its own staff, at a share of the tempo that was read.
 *
 * @param part the pianist's part that is rewritten.
 */
export function judgeUnder(
  score: Score,
  map: TempoMap,
  part: Part,
  hands: HandsProfile,
  pace: number,
): JudgeBarWithReasons {
  const secondsAt = readWrittenClock(map);
  const timed = (barIndex: number, events: readonly BarEvent[], before: readonly StruckKey[]) =>
    strike(score, barIndex, events, part.staffCount, before);
  // Many versions of a bar follow the same printed one.
  const printed = new Map<number, StruckKey[]>();
  const asPrinted = (barIndex: number): StruckKey[] => {
    const known = printed.get(barIndex);
    if (known) return known;
    const struck = barIndex < 0 ? [] : timed(barIndex, readBarEvents(score, part, barIndex), []);
    printed.set(barIndex, struck);
    return struck;
  };
  return (barIndex, before, events) => {
    const notesBefore = before === null ? asPrinted(barIndex - 1) : timed(barIndex - 1, before, []);
    const notes = timed(barIndex, events, notesBefore);
    const option = findPrintedOption(score, timeNotes(notes, secondsAt), barIndex, hands);
    const options = { printed: option, easiest: [option] };
    const share = barAtTempo({ barIndex, options }, pace).printed;
    const strains = share?.strains ?? [];
    const isBeyond = strains.some(
      ({ kind, load }) =>
        (kind === "stretch" && load >= beyondReach) || (kind === "too many notes" && load >= tooMany),
    );
    return { load: share?.load ?? 0, isWithinReach: !isBeyond, strains };
  };
}

/** A key that is pressed, and whether it is tied to what follows. */
interface StruckKey extends StruckNote {
  readonly isTied: boolean;
}

/**
 * The keys that are pressed before and in a bar. The two sides of a tremolo are taken like a broken chord: the hand rocks
 * between them. What is tied goes on.
 */
function strike(
  score: Score,
  barIndex: number,
  events: readonly BarEvent[],
  staffCount: number,
  before: readonly StruckKey[],
): StruckKey[] {
  const start = score.bars[barIndex]?.start;
  const keys = [...before];
  if (!start) return keys;
  const open = new Map(
    before.flatMap((key, index) => (key.isTied ? [[placeOf(key.midi, key.end), index]] : [])),
  );
  const inTime = [...events].sort((a, b) => compareQuarters(a.offset, b.offset));
  for (const event of inTime) {
    for (const pitch of soundedBy(event)) {
      const key = press(barIndex, start, staffCount, event, pitch);
      const heldIndex = open.get(placeOf(key.midi, key.onset));
      const held = heldIndex === undefined ? undefined : keys[heldIndex];
      const index = heldIndex === undefined || !held ? keys.length : heldIndex;
      keys[index] = held ? { ...held, end: key.end, isTied: key.isTied } : key;
      if (key.isTied) open.set(placeOf(key.midi, key.end), index);
    }
  }
  return keys;
}

const placeOf = (midi: number, at: Quarters): string => `${midi}@${writeQuarters(at)}`;

function press(
  barIndex: number,
  start: Quarters,
  staffCount: number,
  event: BarEvent,
  pitch: RewritePitch,
): StruckKey {
  const midi = midiOf(pitch);
  return {
    id: `${barIndex}:${event.staff}:${event.voice}:${writeQuarters(event.offset)}:${midi}`,
    ...{ barIndex, midi },
    staffHand: staffCount > 1 && event.staff >= staffCount ? "left" : "right",
    ...{ onset: addQuarters(start, event.offset), end: addQuarters(start, endOf(event)) },
    isRolled: event.isRolled || (event.tremolo?.other.length ?? 0) > 0,
    strokesPerQuarter: strokesOf(event),
    isTied: event.tremolo === null && event.tied.includes(event.pitches.indexOf(pitch)),
  };
}

function strokesOf({ length, tremolo }: BarEvent): number {
  if (tremolo === null || tremolo.other.length > 0) return 0;
  return 1 / quartersAsNumber(strokeLength(length, { type: "single", marks: tremolo.strokes }));
}
