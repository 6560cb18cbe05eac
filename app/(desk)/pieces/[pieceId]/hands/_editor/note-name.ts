import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { nearestPitch } from "@/lib/rewrites/editing/nearest-pitch";
import type { Step } from "@/lib/score/pitch";
import { midiNumber } from "@/lib/score/pitch";

const form = /^([a-g])\s*(##|bb|♭♭|x|#|b|♯|♭|n|♮)?\s*([0-8])?$/i;
const alters: Readonly<Record<string, number>> = {
  ...{ "##": 2, x: 2, "#": 1, "♯": 1, n: 0, "♮": 0, b: -1, "♭": -1, bb: -2, "♭♭": -2 },
};

/**
 * A note as people write it: "E♭5", "eb5", "f#"; c4 is middle C. Without a sign it is as the key has it, without a number the
 * nearest. Null for anything else.
 *
 * @param near a key of the piano by its MIDI number.
 */
export function readNoteName(text: string, fifths: number | null, near: number): RewritePitch | null {
  const match = form.exec(text.trim());
  if (!match) return null;
  const step = (match[1] ?? "").toUpperCase() as Step;
  const inKey = nearestPitch(step, fifths, near);
  const alter = match[2] === undefined ? inKey.alter : (alters[match[2].toLowerCase()] ?? 0);
  if (match[3] !== undefined) return { step, alter, octave: Number(match[3]) };
  const octaves = Array.from({ length: 10 }, (_, octave): RewritePitch => ({ step, alter, octave }));
  return octaves.reduce((best, other) =>
    Math.abs(midiNumber(other) - near) < Math.abs(midiNumber(best) - near) ? other : best,
  );
}
