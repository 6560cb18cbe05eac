import { describe, expect, it } from "vitest";
import { nameShortRests } from "@/lib/engrave/normalise/name-short-rests";
import { textOf } from "@/lib/musicxml/xml-tree";
import { all, backup, bars, note, opening, source } from "../../musicxml/cut/small-source";

const rest = (ticks: number, voice = 1) =>
  `<note><rest measure="yes"/><duration>${ticks}</duration><voice>${voice}</voice></note>`;
/** What each rest of a bar says: its value, or that it lasts the bar. */
const restsOf = (bar: ReturnType<typeof bars>[number] | undefined) =>
  all(bar, "note").map((each) => {
    const [value, dots] = [all(each, "type").map(textOf).join(""), all(each, "dot").length];
    return all(each, "rest")[0]?.attributes.measure === "yes" ? "bar" : value + ".".repeat(dots);
  });
const named = (...measures: string[]) => {
  const tree = source(measures);
  for (const bar of bars(tree)) if (bar.attributes.number === "3") bar.attributes.implicit = "yes";
  nameShortRests(tree);
  return bars(tree).map(restsOf);
};

describe("nameShortRests", () => {
  it.each<[string, string[], string[][]]>([
    ["a pickup of a quarter", [rest(4), rest(16)], [["quarter"], ["bar"]]],
    ["a pickup with two voices", [rest(6) + backup(6) + rest(6, 2)], [["quarter.", "quarter."]]],
    ["a first bar that is whole", [rest(16)], [["bar"]]],
    ["a length that no rest has", [rest(5)], [["bar"]]],
    ["the rest of a bar that a repeat divides", [rest(16), rest(16), rest(8)], [["bar"], ["bar"], ["half"]]],
    ["a later bar that is no pickup", [rest(16), rest(8)], [["bar"], ["bar"]]],
    ["a rest that has its value", [note("r", 4)], [["quarter"]]],
    [
      "a metre of 3/8",
      [opening.replace(/<beats>4.*?<\/time>/, "<beats>3</beats><beat-type>8</beat-type></time>") + rest(6)],
      [["bar"]],
    ],
  ])("%s", (_, measures, expected) => {
    expect(named(...measures)).toEqual(expected);
  });
});
