import { type HandsProfile, usualHands } from "./hands-profile";
import { reachOfSpan } from "./reach-of-span";

/** Hands to start from, for a pianist who has not measured their own. */
export interface HandPreset {
  readonly name: string;
  /** From the tip of the thumb to the tip of the fifth finger, stretched. */
  readonly spanCentimetres: number;
  readonly hands: HandsProfile;
  /** Whose span it is and where that is published, in a sentence for the reader. */
  readonly source: string;
}

const study = "Boyle, Boyle & Booker 2015, 473 adult pianists";

const bothHands = (spanCentimetres: number): HandsProfile => {
  const reach = reachOfSpan(spanCentimetres);
  return { ...usualHands, left: reach, right: reach };
};

function preset(name: string, spanCentimetres: number, source: string): HandPreset {
  return { name, spanCentimetres, hands: bothHands(spanCentimetres), source };
}

/**
 * Hands by published statistics of span, the smallest first. They differ in reach alone: no rates by size of hand are
 * published.
 *
 * Source: Boyle, Boyle & Booker 2015: women's mean 7.9 inches (20.1 cm), men's about one inch more (22.6 cm); below 8.5
 * inches, the usual threshold for a tenth, lie 87 % of women and 24 % of men. The tenths at the two ends are calculated
 * from those figures as if spans were spread normally: standard deviations 0.53 and 0.57 inches, 1.28 of them from the mean.
 */
export const handPresets: readonly HandPreset[] = [
  preset("small hands", 18.3, `One woman in ten spans 18.3 cm or less (calculated from ${study}).`),
  preset("smaller hands", 20.1, `The women's mean is 20.1 cm (${study}).`),
  preset("usual hands", 22.6, `The men's mean is about 22.6 cm (${study}).`),
  preset("larger hands", 24.4, `One man in ten spans 24.4 cm or more (calculated from ${study}).`),
];
