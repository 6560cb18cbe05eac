import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { midiOf } from "../bar-event";
import { sayPitch } from "./say-pitch";

/** The keys of a piano: A0 to C8. */
const [lowestKey, highestKey] = [21, 108];
/** As many as there are fingers: `rewriteTermsSchema` takes no more. */
const mostNotes = 10;

/** Why these cannot be one chord, in a sentence; null when they can. */
export function findChordFault(pitches: readonly RewritePitch[]): string | null {
  const beyond = pitches.find((pitch) => midiOf(pitch) < lowestKey || midiOf(pitch) > highestKey);
  if (beyond) return `${sayPitch(beyond)} is beyond the keys of a piano.`;
  if (pitches.length > mostNotes) return "Ten notes are all that two hands can strike.";
  const twice = pitches.find((pitch, place) =>
    pitches.slice(0, place).some((other) => midiOf(other) === midiOf(pitch)),
  );
  return twice ? `${sayPitch(twice)} is in this chord already.` : null;
}
