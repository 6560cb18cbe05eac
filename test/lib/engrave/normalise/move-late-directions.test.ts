import { describe, expect, it } from "vitest";
import { moveLateDirections } from "@/lib/engrave/normalise/move-late-directions";
import { childElements, textOf } from "@/lib/musicxml/xml-tree";
import { all, backup, bars, direction, note, source } from "../../musicxml/cut/small-source";

const whole = note("C5", 16);
const words = (text: string) => direction(`<words>${text}</words>`);
const piano = direction("<dynamics><p/></dynamics>");
const grace = "<note><grace/><pitch><step>B</step><octave>4</octave></pitch><voice>1</voice></note>";
const forte = direction("<dynamics><f/></dynamics>");
/** What each bar says before, between and after its notes. */
const moved = (...measures: string[]) => {
  const tree = source(measures);
  moveLateDirections(tree);
  return bars(tree).map((bar) =>
    childElements(bar)
      .filter(({ name }) => /^(note|direction)$/.test(name))
      .map((node) =>
        node.name === "note"
          ? "♩"
          : (all(node, "p").length > 0 ? "p" : textOf(all(node, "words")[0] ?? null)) || "sign",
      )
      .join(" "),
  );
};

describe("moveLateDirections", () => {
  it.each<[string, string[], string[]]>([
    ["words behind the last note", [whole + words("Corno I."), whole], ["♩", "Corno I. ♩"]],
    ["a sign of loudness, and in order", [whole + piano + words("dolce"), whole], ["♩", "p dolce ♩"]],
    ["before what the next bar says itself", [whole + piano, words("dolce") + whole], ["♩", "p dolce ♩"]],
    [
      "in a bar of two voices",
      [whole + piano + backup(16) + note("C4", 16, { voice: 2 }), whole],
      ["♩ ♩", "p ♩"],
    ],
    [
      "nothing that stands before a note",
      [piano + whole + backup(16) + words("a") + whole, whole],
      ["p ♩ a ♩", "♩"],
    ],
    ["no sign of loudness that the next bar contradicts", [whole + piano, forte + whole], ["♩ p", "sign ♩"]],
    ["nothing that is said of grace notes", [whole + piano + grace, whole], ["♩ p ♩", "♩"]],
    ["nothing in the last bar", [whole + words("dolce")], ["♩ dolce"]],
    [
      "not what closes a bar",
      [whole + words("D.C. al Fine"), whole + words("attacca"), whole],
      ["♩ D.C. al Fine", "♩ attacca", "♩"],
    ],
    ["not the mark of a cut", [whole + words("Vi–"), whole], ["♩ Vi–", "♩"]],
    ["no end of a line", [whole + direction('<wedge type="stop"/>'), whole], ["♩ sign", "♩"]],
    [
      "nothing over a double bar",
      [`${whole + piano}<barline location="right"><bar-style>light-light</bar-style></barline>`, whole],
      ["♩ p", "♩"],
    ],
  ])("%s", (_, measures, expected) => {
    expect(moved(...measures)).toEqual(expected);
  });

  it("draws a little earlier what stays in its bar", () => {
    const offsets = (...measures: string[]) => {
      const tree = source(measures);
      moveLateDirections(tree);
      return all(tree.root, "offset").map(textOf);
    };
    expect(offsets(whole + piano, forte + whole)).toEqual(["-4"]);
    expect(offsets(whole + piano, piano + whole)).toEqual([]);
    expect(offsets(note("C5", 12) + note("C5", 4) + piano, forte + whole)).toEqual(["-1"]);
    expect(offsets(whole + words("rit.") + grace, whole)).toEqual(["-4"]);
    expect(offsets(whole + piano, words("dolce") + whole)).toEqual([]);
    // The other staff says something else.
    const below = forte.replace("</direction>", "<staff>2</staff></direction>");
    expect(offsets(whole + piano, below + whole)).toEqual([]);
  });
});
