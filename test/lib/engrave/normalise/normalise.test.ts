import { describe, expect, it } from "vitest";
import { readMarkStyle } from "@/lib/engrave/mark-style";
import { normaliseForEngraving } from "@/lib/engrave/normalise/normalise";
import { textOf } from "@/lib/musicxml/xml-tree";
import { all, bars, direction, note, source, xml } from "../../musicxml/cut/small-source";

const whole = (pitch: string) => note(pitch, 16);
const rest = whole("r");
const style = (count: number) =>
  `<attributes><measure-style><multiple-rest>${count}</multiple-rest></measure-style></attributes>`;

describe("normaliseForEngraving", () => {
  it("takes out what the engraver gets wrong", () => {
    const tree = source([style(2) + rest, `<print new-page="yes"/>${rest}`], [whole("C5"), whole("D5")]);
    for (const bar of bars(tree, 1)) bar.attributes["non-controlling"] = "yes";
    tree.root.children.unshift({ kind: "element", name: "credit", attributes: {}, children: [] });
    normaliseForEngraving(tree, { firstLabels: "short" });
    expect(xml(tree.root)).not.toMatch(/multiple-rest|<print|non-controlling|<credit/);
    expect(all(tree.root, "note")).toHaveLength(4);
  });

  it("names parts before the first system as asked, before the others shortly", () => {
    const names = (firstLabels: "full" | "short" | "none") => {
      const tree = source([whole("C5")]);
      const [name] = all(tree.root, "part-name");
      if (name) name.children = [{ kind: "text", text: "Violin" }];
      normaliseForEngraving(tree, { firstLabels });
      return [...all(tree.root, "part-name"), ...all(tree.root, "part-abbreviation")].map(textOf);
    };
    expect(names("full")).toEqual(["Violin", "Vl."]);
    expect(names("short")).toEqual(["Vl.", "Vl."]);
    expect(names("none")).toEqual(["", ""]);
  });

  it("makes a staff smaller, and wishes for breaks", () => {
    const tree = source([whole("C5"), whole("D5")]);
    normaliseForEngraving(tree, { firstLabels: "short", staffSizes: { P1: 70 }, wantedBreaks: [1] });
    expect(all(bars(tree)[0], "staff-size").map(textOf)).toEqual(["70"]);
    expect(all(bars(tree)[1], "print").map(({ attributes }) => attributes["new-system"])).toEqual(["yes"]);
  });

  it("cuts words short that are no words", () => {
    const tree = source([direction(`<words>${"x".repeat(100_000)}</words>`) + whole("C5")]);
    normaliseForEngraving(tree, { firstLabels: "short" });
    const lines = textOf(all(tree.root, "words")[0] ?? null).split("\n");
    expect(lines.join("")).toHaveLength(201);
    expect(lines).toHaveLength(6);
  });

  it.each([
    ["dolce", ["dolce"]],
    // As some files have it.
    ["Più mosso e\\n con fuoco.", ["Più mosso e", "con fuoco."]],
    [
      "Who sings the second of the two arias goes from here to the same sign at the beginning",
      ["Who sings the second of the two arias", "goes from here to the same sign at the", "beginning"],
    ],
  ])("sets “%s” in lines", (said, lines) => {
    const tree = source([direction(`<words>${said}</words>`) + whole("C5")]);
    normaliseForEngraving(tree, { firstLabels: "short" });
    expect(textOf(all(tree.root, "words")[0] ?? null).split("\n")).toEqual(lines);
  });

  it("tells the engraver how the players' own words are set, and nothing of a source's", () => {
    const words = (attributes: string) => {
      const tree = source([direction(`<words ${attributes}>Fl.</words>`) + whole("C5")]);
      normaliseForEngraving(tree, { firstLabels: "short" });
      return readMarkStyle(all(tree.root, "words")[0]?.attributes.color);
    };
    expect(words('font-family="sans-serif" font-size="9"')).toEqual({ family: "sans-serif", factor: 0.75 });
    expect(words('font-family="serif"')).toEqual({ family: "serif", factor: 1 });
    expect(words('font-family="Times" font-size="9" color="#000164"')).toBeNull();
  });
});

describe("rests in a row", () => {
  const rows = (...measures: string[]) => {
    const tree = source(measures);
    normaliseForEngraving(tree, { firstLabels: "short", condensesRests: true });
    return bars(tree).map((bar) => all(bar, "multiple-rest").map(textOf).join());
  };
  const light = (barStyle: string) =>
    `<barline location="right"><bar-style>${barStyle}</bar-style></barline>`;

  it.each<[string, string[], string[]]>([
    ["become one", [whole("C5"), rest, rest, rest, whole("D5")], ["", "3", "", "", ""]],
    ["are left alone when there is one", [whole("C5"), rest, whole("D5")], ["", "", ""]],
    ["begin with a letter", [rest, direction("<rehearsal>A</rehearsal>") + rest, rest], ["", "2", ""]],
    ["are divided by a double bar", [rest, rest + light("light-light"), rest, rest], ["2", "", "2", ""]],
    ["go on over a plain bar line", [rest + light("regular"), rest, rest], ["3", "", ""]],
    [
      "are divided by a change of key",
      [rest, rest, `<attributes><key><fifths>2</fifths></key></attributes>${rest}`, rest],
      ["2", "", "2", ""],
    ],
    ["keep words behind the music", [rest, rest, rest + direction("<words>Vi–</words>")], ["2", "", ""]],
    ["keep a fermata", [rest, rest, note("r", 16, { notations: "<fermata/>" }), rest], ["2", "", "", ""]],
  ])("%s", (_, measures, expected) => {
    expect(rows(...measures)).toEqual(expected);
  });

  it("do not count a pickup", () => {
    const tree = source([rest, rest, rest]);
    const [pickup] = bars(tree);
    if (pickup) pickup.attributes.implicit = "yes";
    normaliseForEngraving(tree, { firstLabels: "short", condensesRests: true });
    expect(bars(tree).map((bar) => all(bar, "multiple-rest").map(textOf).join())).toEqual(["", "2", ""]);
  });

  it("stay beside another part, whose notes the engraver would lose", () => {
    const tree = source([rest, rest], [whole("C5"), whole("D5")]);
    normaliseForEngraving(tree, { firstLabels: "short", condensesRests: true });
    expect(all(tree.root, "multiple-rest")).toEqual([]);
  });
});
