const names = [
  "a unison",
  "a semitone",
  "a tone",
  "a minor third",
  "a third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a minor sixth",
  "a sixth",
  "a minor seventh",
  "a seventh",
  "an octave",
  "a minor ninth",
  "a ninth",
  "a minor tenth",
  "a tenth",
  "an eleventh",
  "an augmented eleventh",
  "a twelfth",
  "a minor thirteenth",
  "a thirteenth",
  "a minor fourteenth",
  "a fourteenth",
  "two octaves",
];

/** An interval as pianists name it: "a tenth", "two octaves and a fifth". @param semitones whole, from 0. */
export function sayInterval(semitones: number): string {
  const within = names[semitones];
  if (within !== undefined) return within;
  const octaves = Math.floor(semitones / 12);
  const rest = semitones % 12;
  const many = octaves === 2 ? "two octaves" : octaves === 3 ? "three octaves" : `${octaves} octaves`;
  return rest === 0 ? many : `${many} and ${names[rest]}`;
}
