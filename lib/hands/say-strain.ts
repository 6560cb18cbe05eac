import { sayInterval } from "./say-interval";
import type { Strain } from "./strain";
import { beyondReach } from "./strains/stretch";

const hands = { left: "Left hand", right: "Right hand" } as const;

/** One decimal, without a zero after it: "10.7", "7". */
const figure = (value: number): string => `${Math.round(value * 10) / 10}`;

/**
 * A strain in one sentence with its figures: "Right hand: octaves and chords struck 9.2 times a second; you manage 5 with
 * ease."
 */
export function sayStrain(strain: Strain): string {
  return `${hands[strain.hand]}: ${sayDemand(strain)}.`;
}

function sayDemand(strain: Strain): string {
  const { kind, figure: asked, limit, availableSeconds, load, isOfOctaves } = strain;
  switch (kind) {
    case "stretch":
      return `${sayInterval(asked)} struck together${isBroken(load) ? ", to be broken" : ""}; ${sayInterval(limit)} lies well for you`;
    case "held note":
      return `${sayInterval(asked)} from a held note to what moves beside it; let go into the pedal`;
    case "too many notes":
      return `${asked} keys at once`;
    case "crossing":
      return load >= 0.8 ? "the same key as the right hand" : "it lies over the right hand";
    case "leap":
      return `a leap of ${sayInterval(asked)} beyond its reach, ${figure2(availableSeconds ?? 0)} s for it; it takes ${figure2(limit)} s`;
    case "repeated note":
      return `the same key struck ${figure(asked)} times a second; you manage ${figure(limit)} with ease`;
    case "repeated chord":
      return `${isOfOctaves ? "chords an octave wide" : "chords"} repeated ${figure(asked)} times a second; you manage ${figure(limit)} with ease`;
    case "octaves in a row":
      return `octaves and chords in a row, ${figure(asked)} a second; you manage ${figure(limit)} with ease`;
    case "run":
      return `${figure(asked)} notes a second; you manage ${figure(limit)} with ease`;
  }
}

/** Wider than the hand, and no more than what one breaks without a sign. */
const isBroken = (load: number): boolean => load >= beyondReach && load < 2;

const figure2 = (value: number): string => value.toFixed(2);
