import { describe, expect, it } from "vitest";
import { checkSpanners } from "@/lib/musicxml/check-spanners";
import { backup, direction, note, source, tie } from "./cut/small-source";

const slur = (type: string, number = 1) => `<slur type="${type}" number="${number}"/>`;
const beam = (value: string) => `<beam number="1">${value}</beam>`;
const faultsIn = (...measures: string[]) =>
  checkSpanners(source(measures)).map(({ name, fault }) => `${name} ${fault}`);

describe("checkSpanners", () => {
  it.each<[string, string[], string[]]>([
    [
      "a slur over a bar line",
      [note("C5", 16, { notations: slur("start") }), note("D5", 16, { notations: slur("stop") })],
      [],
    ],
    ["a slur without an end", [note("C5", 16, { notations: slur("start") })], ["slur never stops"]],
    ["a slur without a start", [note("C5", 16, { notations: slur("stop") })], ["slur never started"]],
    [
      "slurs of two numbers",
      [note("C5", 16, { notations: slur("start", 1) + slur("stop", 2) })],
      ["slur never started", "slur never stops"],
    ],
    [
      "a slur that ends in the voice written first",
      [
        note("C5", 16, { notations: slur("stop") }) +
          backup(16) +
          note("C4", 16, { voice: 2, notations: slur("start") }),
      ],
      [],
    ],
    [
      "a hairpin without an end",
      [direction('<wedge type="crescendo"/>') + note("C5", 16)],
      ["wedge never stops"],
    ],
    [
      "a pedal that changes and ends",
      [
        direction('<pedal type="start"/>') +
          direction('<pedal type="change"/>') +
          note("C5", 16) +
          direction('<pedal type="stop"/>'),
      ],
      [],
    ],
    [
      "an octave line without a start",
      [direction('<octave-shift type="stop"/>') + note("C5", 16)],
      ["octave-shift never started"],
    ],
    [
      "a bracket without an end",
      [direction('<bracket type="start" line-end="none"/>') + note("C5", 16)],
      ["bracket never stops"],
    ],
    [
      "a tuplet of another voice's end",
      [
        note("C5", 8, { notations: '<tuplet type="start"/>' }) +
          note("D5", 8, { voice: 2, notations: '<tuplet type="stop"/>' }),
      ],
      ["tuplet never started", "tuplet never stops"],
    ],
    [
      "one half of a tremolo",
      [note("C5", 16, { notations: '<ornaments><tremolo type="start">3</tremolo></ornaments>' })],
      ["tremolo never stops"],
    ],
    [
      "a single tremolo",
      [note("C5", 16, { notations: '<ornaments><tremolo type="single">3</tremolo></ornaments>' })],
      [],
    ],
    ["a tie", [note("C5", 16, tie("start")), note("C5", 16, tie("stop"))], []],
    [
      "a tie to another pitch",
      [note("C5", 16, tie("start")), note("D5", 16, tie("stop"))],
      ["tie never started", "tie never stops"],
    ],
    ["beams", [note("C5", 2, { after: beam("begin") }) + note("D5", 2, { after: beam("end") })], []],
    [
      "a beam that goes on from nothing",
      [note("C5", 2, { after: beam("continue") }) + note("D5", 2, { after: beam("end") })],
      ["beam out of place", "beam out of place"],
    ],
    ["a beam without an end", [note("C5", 2, { after: beam("begin") })], ["beam never stops"]],
  ])("%s", (_, measures, faults) => {
    expect(faultsIn(...measures).sort()).toEqual(faults);
  });
});
