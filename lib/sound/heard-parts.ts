import { findAccompanyingParts, findReductionParts } from "@/lib/score/find-part";
import type { Part } from "@/lib/score/part";
import type { Score } from "@/lib/score/score";
import { chooseInstrument } from "./choose-instrument";
import type { ScheduledVoice } from "./schedule";

/** A part that is heard, and how. */
export interface HeardPart {
  readonly part: Part;
  readonly voice: ScheduledVoice;
}

/** The channel that General MIDI keeps for drums, from 0. */
const drumChannel = 9;
/** Channels of a MIDI port. */
const channelCount = 16;

/**
 * The parts that are heard: the solo with the reduction; with the orchestra where there is no reduction; else all there is.
 * Each has a channel of its own; where there are more parts than channels, those of one instrument share one.
 */
export function findHeardParts(score: Score): HeardPart[] {
  const reduction = findReductionParts(score);
  const accompaniment = reduction.length > 0 ? reduction : findAccompanyingParts(score);
  const solo = score.parts.filter(({ role }) => role === "solo");
  const parts =
    accompaniment.length > 0
      ? score.parts.filter((part) => solo.includes(part) || accompaniment.includes(part))
      : score.parts;
  const chosen = parts.map((part) => ({ part, ...chooseInstrument(part) }));
  const keyOf = ({ part, program }: (typeof chosen)[number]) =>
    parts.length < channelCount ? part.id : `${program}`;
  const keys = [...new Set(chosen.map(keyOf))];
  return chosen.map((one) => {
    const { part, program, substituted } = one;
    const at = keys.indexOf(keyOf(one));
    return {
      part,
      voice: {
        ...{ partId: part.id, partName: part.name, role: part.role, program, substituted },
        channel: at < drumChannel ? at : at + 1,
      },
    };
  });
}
