import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import type { Step } from "@/lib/score/pitch";
import { midiOf } from "../bar-event";

/** In the order in which a key signature takes them. */
const sharps: readonly Step[] = ["F", "C", "G", "D", "A", "E", "B"];
const steps: readonly Step[] = ["C", "D", "E", "F", "G", "A", "B"];

/** What a key signature does to a step. @param fifths sharps when positive, flats when negative; null for a key without. */
export function alterInKey(step: Step, fifths: number | null): number {
  const place = sharps.indexOf(step);
  if (fifths === null) return 0;
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}

/** The pitch of that name, as the key has it, nearest to a key of the piano; of two alike the lower. @param midi 60 is c4. */
export function nearestPitch(step: Step, fifths: number | null, midi: number): RewritePitch {
  const alter = alterInKey(step, fifths);
  const octaves = Array.from({ length: 10 }, (_, octave): RewritePitch => ({ step, alter, octave }));
  return octaves.reduce((best, other) =>
    Math.abs(midiOf(other) - midi) < Math.abs(midiOf(best) - midi) ? other : best,
  );
}

/** So many steps of the staff higher, as the key has it. */
export function byStaffSteps(
  { step, octave }: Pick<RewritePitch, "step" | "octave">,
  higher: number,
  fifths: number | null,
): RewritePitch {
  const place = octave * 7 + steps.indexOf(step) + higher;
  const named = steps[((place % 7) + 7) % 7] ?? "C";
  return { step: named, alter: alterInKey(named, fifths), octave: Math.floor(place / 7) };
}
