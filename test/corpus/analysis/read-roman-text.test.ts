import { describe, expect, it } from "vitest";
import type { Key } from "@/lib/harmony/key";
import { readRomanText } from "./read-roman-text";
import { readRomanNumeral } from "./roman-numeral";

const names = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];
const sayKey = ({ tonic, mode }: Key) => (mode === "major" ? names[tonic]! : names[tonic]!.toLowerCase());

function say(text: string): string[] {
  return readRomanText(text).events.map(({ barNumber, beat, key, figure }) => {
    return `${barNumber}:${Number(beat.toFixed(2))} ${sayKey(key)} ${figure}`;
  });
}

describe("analyses as text", () => {
  it.each([
    ["keys and beats", "m3 g: i b2.5 V6", ["3:1 g i", "3:2.5 g V6"]],
    ["a key that goes on", "m1 Bb: I\nm2 V7 b2 I", ["1:1 Bb I", "2:1 Bb V7", "2:2 Bb I"]],
    ["a change inside a bar", "m1 C: I b3 G: IV", ["1:1 C I", "1:3 G IV"]],
    ["repeat signs, notes and variants", "Note: m9 I\nm1 ||: C: I :||\nm1var1 vi", ["1:1 C I"]],
    ["thirds of a beat", "m1 c: i b1.66 V", ["1:1 c i", "1:1.67 c V"]],
    ["copies", "m1 C: I\nm2 V\nm3-4 = m1-2", ["1:1 C I", "2:1 C V", "3:1 C I", "4:1 C V"]],
    [
      "copies in the key that is in force",
      "m1 C: I\nm2 V\nm3 G: I\nm4=m2",
      ["1:1 C I", "2:1 C V", "3:1 G I", "4:1 G V"],
    ],
    ["a bar written twice", "m1 C: I\nm1 I\nm2 V", ["1:1 C I", "2:1 C V"]],
    ["nothing before the first key", "m1 I\nm2 C: V", ["2:1 C V"]],
  ])("%s", (_name, text, expected) => {
    expect(say(text)).toEqual(expected);
  });

  it("remembers from which bar on a signature holds", () => {
    const { signatures } = readRomanText("Time Signature: fast 3/8\nm1 C: I\nTime signature : 4/4\nm2 V");
    expect(signatures).toEqual([
      { barNumber: 0, text: "fast 3/8" },
      { barNumber: 2, text: "4/4" },
    ]);
  });
});

describe("Roman numerals", () => {
  const inC: Key = { tonic: 0, mode: "major" };
  const inA: Key = { tonic: 9, mode: "minor" };

  it.each([
    ["I", inC, "C major"],
    ["V65", inC, "G dominant-seventh"],
    ["IV7", inC, "F major-seventh"],
    ["ii7", inC, "D minor-seventh"],
    ["viiø43", inC, "B half-diminished"],
    ["viio7/V", inC, "F# diminished-seventh"],
    ["V7/ii", inC, "A dominant-seventh"],
    ["V/V", inC, "D major"],
    ["iv6/ii", inC, "G minor"],
    ["bVI", inC, "Ab major"],
    ["bII6", inC, "Db major"],
    ["V+", inC, "G augmented"],
    ["V[no3no5]", inC, "G major"],
    ["Ger65", inC, "Ab dominant-seventh"],
    ["Cad64", inC, "C major"],
    ["i64", inA, "A minor"],
    ["V", inA, "E major"],
    ["VI", inA, "F major"],
    ["vi", inA, "F# minor"],
    ["VII", inA, "G major"],
    ["viio6", inA, "Ab diminished"],
    ["iio", inA, "B diminished"],
    ["III+", inA, "C augmented"],
  ])("%s in %o is %s", (figure, key, expected) => {
    const { root, quality } = readRomanNumeral(figure, key);
    expect(`${names[root]} ${quality}`).toBe(expected);
  });

  it("nothing else", () => {
    expect(() => readRomanNumeral("Hauptsatz", inC)).toThrow(RangeError);
  });
});
