const words = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

/** "three", "14". @param lastWord the highest number that is written as a word, at most 12. */
export function sayNumber(value: number, lastWord: number): string {
  return (value <= lastWord ? words[value] : undefined) ?? `${value}`;
}
