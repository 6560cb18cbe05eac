import { describe, expect, it } from "vitest";
import { dropRepeatedTempi } from "@/lib/engrave/normalise/drop-repeated-tempi";
import { readTree } from "@/lib/musicxml/read-tree";
import { childrenNamed, textOf } from "@/lib/musicxml/xml-tree";

const note = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>";
const tempo = (perMinute: number, staff = 1) =>
  `<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>${perMinute}</per-minute></metronome></direction-type><staff>${staff}</staff></direction>`;
const words = (text: string) =>
  `<direction><direction-type><words>${text}</words></direction-type></direction>`;

/** What each part says, after what is repeated was left out; "|" is a note of a whole bar at two divisions. */
function said(...parts: readonly string[]): string[] {
  const written = parts.map(
    (music, index) =>
      `<part id="P${index}"><measure number="1"><attributes><divisions>${index + 1}</divisions></attributes>${music.replaceAll("|", note)}</measure></part>`,
  );
  const list = parts.map((_, index) => `<score-part id="P${index}"><part-name/></score-part>`).join("");
  const tree = readTree(
    new TextEncoder().encode(
      `<score-partwise version="4.0"><part-list>${list}</part-list>${written.join("")}</score-partwise>`,
    ),
  );
  if (!tree.ok) throw new Error(tree.problem.kind);
  dropRepeatedTempi(tree.value);
  return tree.value.parts.map((part) =>
    childrenNamed(part, "measure")
      .flatMap((measure) => childrenNamed(measure, "direction"))
      .map((direction) => textOf(direction).replace(/^quarter/, ""))
      .join(", "),
  );
}

describe("dropRepeatedTempi", () => {
  it("keeps a tempo over the highest part and the highest staff", () => {
    expect(said(`${tempo(84)}|`, `${tempo(84, 2)}${tempo(84, 1)}|`)).toEqual(["841", ""]);
    expect(said("|", `${tempo(84, 2)}${tempo(84, 1)}|`)).toEqual(["", "841"]);
    expect(said(`${words("Allegro moderato")}|`, `${words("Allegro  moderato")}|`)).toEqual([
      "Allegro moderato",
      "",
    ]);
  });

  it("keeps other tempi, and the same at another place", () => {
    expect(said(`${tempo(84)}|`, `${tempo(96)}|`)).toEqual(["841", "961"]);
    expect(said(`${tempo(84)}|`, `|${tempo(84)}`)).toEqual(["841", "841"]);
    // The fourth quarter of one part is the same place as the fourth of another with other divisions.
    expect(said(`|${tempo(84)}`, `||${tempo(84)}`)).toEqual(["841", ""]);
  });

  it("keeps what each player follows: a tempo, rit., words that name no tempo", () => {
    for (const text of ["a tempo", "rit.", "dolce", "problem:mixed beam"])
      expect(said(`${words(text)}|`, `${words(text)}|`)).toEqual([text, text]);
  });
});
