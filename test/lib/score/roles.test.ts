import { describe, expect, it } from "vitest";
import { assignRoles } from "@/lib/score/assign-roles";
import { findReductionParts, findSoloPart } from "@/lib/score/find-part";
import { guessRoles, type PartOutline } from "@/lib/score/guess-roles";
import { buildScore } from "../../builders/build-score";

function outline(name: string, rest: Partial<PartOutline> = {}): PartOutline {
  return { name, staffCount: 1, soundId: null, midiProgram: null, hasLyrics: false, ...rest };
}
const piano = outline("Piano", { staffCount: 2, soundId: "keyboard.piano", midiProgram: 1 });
const strings = ["Violin 1", "Violin 2", "Viola", "Violoncello"].map((name) => outline(name));

describe("guessing roles", () => {
  it.each<[string, PartOutline[], string]>([
    ["violin and piano", [outline("Violino"), outline("Pianoforte", { staffCount: 2 })], "solo reduction"],
    [
      "a voice that is named like a clarinet",
      [outline("Clarinet in C", { hasLyrics: true }), piano],
      "solo reduction",
    ],
    [
      "two staves without any other mark",
      [outline("Part 1"), outline("Part 2", { staffCount: 2 })],
      "solo reduction",
    ],
    [
      "a piano on two parts",
      [outline("Singstimme"), outline("Piano"), outline("Pianoforte")],
      "solo reduction reduction",
    ],
    [
      "a voice and an obbligato",
      [outline("Clarinet"), outline("Sopran", { hasLyrics: true }), piano],
      "other solo reduction",
    ],
    ["a piano alone", [outline("Part 1", { staffCount: 2 })], "reduction"],
    ["a reduced score", [outline("Reduced Score", { staffCount: 2, midiProgram: 1 })], "reduction"],
    ["one part alone", [outline("Melody")], "solo"],
    ["an orchestra", strings, "orchestra orchestra orchestra orchestra"],
    [
      "a concerto in full score",
      [...strings, outline("Violoncello principale")],
      "orchestra orchestra orchestra orchestra solo",
    ],
    [
      "an organ that sings",
      [outline("Organ", { staffCount: 2, soundId: "keyboard.organ" }), outline("Trumpet")],
      "reduction solo",
    ],
    [
      "a harp is no piano",
      [outline("Harp", { staffCount: 2, soundId: "pluck.harp", midiProgram: 47 }), piano],
      "solo reduction",
    ],
  ])("%s", (_name, parts, roles) => {
    expect(guessRoles(parts).join(" ")).toBe(roles);
  });

  it("gives one role for each part, and never two soloists", () => {
    expect(guessRoles([])).toEqual([]);
    expect(
      guessRoles([outline("Solo violin"), outline("Solo viola"), ...strings]).filter(
        (role) => role === "solo",
      ),
    ).toEqual([]);
  });
});

describe("assigning roles", () => {
  const score = buildScore({ solo: "R", piano: "R" });

  it("changes the parts it names and no others", () => {
    const changed = assignRoles(score, { P1: "orchestra", nobody: "solo" });
    expect(changed.parts.map((part) => part.role)).toEqual(["orchestra", "reduction"]);
    expect(changed.parts[1]).toBe(score.parts[1]);
    expect(findSoloPart(changed)).toBeNull();
    expect(findReductionParts(changed)).toHaveLength(1);
  });

  it("takes no role from what every object has", () => {
    const odd = { ...score, parts: score.parts.map((part) => ({ ...part, id: "constructor" })) };
    expect(assignRoles(odd, {}).parts[0]?.role).toBe("solo");
  });
});
