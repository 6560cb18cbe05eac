import { describe, expect, it } from "vitest";
import { LineEngraver } from "@/lib/engrave/engrave-lines";
import { keepSpaces } from "@/lib/engrave/normalise/keep-spaces";
import { openEngraver } from "@/lib/engrave/toolkit";
import { textOf } from "@/lib/musicxml/xml-tree";
import { all, direction, note, source } from "../../musicxml/cut/small-source";

const space = "\u00a0";
const bold = (text: string) => `<words font-weight="bold">${text}</words>`;
const italic = (text: string) => `<words font-style="italic">${text}</words>`;
const tempo =
  "</direction-type><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>96</per-minute></metronome>";

/** What the words of one direction are then. */
const kept = (types: string) => {
  const tree = source([direction(types) + note("C5", 16)]);
  keepSpaces(tree);
  return all(tree.root, "words").map(textOf);
};

describe("keepSpaces", () => {
  it.each<[string, string, string[]]>([
    ["before the note of a tempo", bold("Allegretto ") + tempo, [`Allegretto${space}`]],
    ["there, where the source has none", bold("Allegretto") + tempo, [`Allegretto${space}`]],
    ["before a sign of loudness", `${italic("poco ")}<words>\ue522</words>`, [`poco${space}`, "\ue522"]],
    [
      "between words of two styles",
      bold("Lento") + italic(" ma non troppo"),
      ["Lento", `${space}ma non troppo`],
    ],
    ["none between parts of a word", bold("cresc") + italic("endo "), ["cresc", "endo "]],
    ["not of words that have no style", `<words>poco </words>${italic("rit.")}`, ["poco ", "rit."]],
    ["not where nothing but a space is said", bold(" ") + tempo, [" "]],
  ])("keeps a space %s", (_, types, expected) => {
    expect(kept(types)).toEqual(expected);
  });

  it("lets the engraver draw them when it reads its own notation again", async () => {
    const { toolkit } = await openEngraver();
    const rest = '<note><rest measure="yes"/><duration>16</duration><voice>1</voice></note>';
    const tree = source([direction(bold("Allegretto ") + tempo) + note("C5", 16), rest, rest, rest, rest]);
    const layout = { systemUnits: 230, spacing: 0.6, barNumbers: "every-bar", firstLabels: "short" } as const;
    const lines = new LineEngraver(
      toolkit,
      tree,
      { ...layout, takesWantedBreaks: true, fillsLastSystem: false },
      { condensesRests: true },
    );
    const [first] = lines.inOwnLines();
    const [again] = lines.inLines([]);
    for (const system of [first, again]) expect(system?.svg).toMatch(/>Allegretto\u00a0</);
  });
});
