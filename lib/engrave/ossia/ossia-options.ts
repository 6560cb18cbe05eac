import type { OssiaStaff } from "./find-ossia-staves";

/**
 * What the engraver (verovio 6.3.0) is told when it draws ossias: their size; and that lines are not laid out a second
 * time to save a last bar from standing alone, in which it loses the wavy lines of broken chords in ossias and dies.
 */
export const ossiaOptions = (ossias: readonly OssiaStaff[]): Readonly<Record<string, unknown>> =>
  ossias.length === 0 ? {} : { ossiaStaffSize: 0.65, breaksNoWidow: false };
