import { describe, expect, it } from "vitest";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { childrenNamed, textOf } from "@/lib/musicxml/xml-tree";
import { all, bars, direction, music, note, source, xml } from "./small-source";

const rehearsal = (letter: string) => direction(`<rehearsal>${letter}</rehearsal>`);
const allegro = direction("<words>Allegro</words>", '<sound tempo="120"/>');
const dolce = direction("<words>dolce</words>");

describe("keepParts", () => {
  const tree = () =>
    source(
      [allegro + dolce + note("C5", 16), note("D5", 8) + rehearsal("A") + note("E5", 8)],
      [note("C4", 16), note("D4", 4) + note("E4", 12)],
      [allegro + note("C3", 16), note("D3", 16)],
    );

  it("keeps the parts in the score's order, with their entries", () => {
    const kept = keepParts(tree(), ["P3", "P2"]);
    expect(kept.parts.map(({ attributes }) => attributes.id)).toEqual(["P2", "P3"]);
    expect(all(kept.root, "score-part").map(({ attributes }) => attributes.id)).toEqual(["P2", "P3"]);
    expect(music(bars(kept)[1])).toBe("D4:4 E4:12");
  });

  it("moves the measure ids and what stands over all parts to the new top part", () => {
    const kept = keepParts(tree(), ["P2"]);
    expect(bars(kept).map(({ attributes }) => attributes.id)).toEqual(["b0", "b1"]);
    expect(all(bars(kept)[0], "words").map(textOf)).toEqual(["Allegro"]);
    expect(xml(bars(kept)[1])).toContain("<rehearsal>A</rehearsal>");
  });

  it("finds the place by the clock when the part has no note there", () => {
    const kept = keepParts(source([note("C5", 8) + rehearsal("B") + note("D5", 8)], [note("C4", 16)]), [
      "P2",
    ]);
    expect(xml(bars(kept)[0])).toContain(`<backup><duration>8</duration></backup>${rehearsal("B")}`);
  });

  it("does not say again what the part says itself", () => {
    expect(all(bars(keepParts(tree(), ["P3"]))[0], "words").map(textOf)).toEqual(["Allegro"]);
  });

  it("keeps a bracket only around two parts", () => {
    const group = (type: string) =>
      ({ kind: "element", name: "part-group", attributes: { type, number: "1" }, children: [] }) as const;
    const score = tree();
    const [list] = childrenNamed(score.root, "part-list");
    const [first, ...others] = list?.children ?? [];
    if (list && first)
      list.children = [
        { ...group("start"), children: [] },
        first,
        ...others,
        { ...group("stop"), children: [] },
      ];
    expect(all(keepParts(score, ["P1", "P2"]).root, "part-group")).toHaveLength(2);
    expect(all(keepParts(score, ["P1"]).root, "part-group")).toHaveLength(0);
  });

  it("refuses ids that are no parts", () => {
    expect(() => keepParts(tree(), ["P9"])).toThrow(RangeError);
  });
});
