import type { Section } from "./phrase";
import { andante } from "./sections/andante";
import { centralTutti } from "./sections/central-tutti";
import { closingGroup } from "./sections/closing-group";
import { coda } from "./sections/coda";
import { development } from "./sections/development";
import { firstSolo, transitionToF } from "./sections/first-solo";
import { openingTutti } from "./sections/opening-tutti";
import { recapitulation, secondThemeInD, turnToMajor } from "./sections/recapitulation";
import { secondTheme } from "./sections/second-theme";

/** What stands on the title page. */
export const TITLE = {
  work: "Concertino in D minor, Op. 21",
  movement: "I. Allegro con spirito",
  composer: "Ilse Varnhold",
} as const;

/** The movement, in order. Bar 0 is the upbeat. */
export const SECTIONS: readonly Section[] = [
  openingTutti,
  firstSolo,
  transitionToF,
  secondTheme,
  closingGroup,
  centralTutti,
  andante,
  development,
  recapitulation,
  turnToMajor,
  secondThemeInD,
  coda,
];
