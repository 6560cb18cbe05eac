import { describe, expect, it } from "vitest";
import { checkSpanners } from "@/lib/musicxml/check-spanners";
import { showCuts } from "@/lib/musicxml/cut/show-cuts";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { childElements, textOf } from "@/lib/musicxml/xml-tree";
import { all, bars, cut, note, source } from "./small-source";

const tree = source(["C5", "D5", "E5", "F5", "G5"].map((pitch) => note(pitch, 8) + note(pitch, 8)));

/** What stands in each bar, notes by their step. */
const inBars = (shown: ReturnType<typeof source>): string[] =>
  bars(shown).map((measure) =>
    childElements(measure)
      .filter(({ name }) => name === "note" || name === "direction")
      .map((node) => {
        const [line] = all(node, "bracket");
        if (line) return `${line.attributes["line-type"]} ${line.attributes.type}`;
        return textOf(all(node, "words")[0] ?? all(node, "step")[0] ?? null);
      })
      .join(" "),
  );

describe("showCuts", () => {
  it("writes over the printed bars where one leaves and goes on", () => {
    expect(inBars(showCuts(tree, [cut("2 to 4")]))).toEqual([
      "C C",
      "Vi– dashed start D D",
      "E E dashed stop",
      "–de F F",
      "G G",
    ]);
  });

  it("shows cuts inside bars, to the end, and several, and leaves nothing open", () => {
    const shown = showCuts(tree, [cut("1+2 to 2+2"), cut("4 to 6")]);
    expect(inBars(shown)).toEqual([
      "C Vi– dashed start C",
      "D dashed stop –de D",
      "E E",
      "Vi– dashed start F F",
      "G G dashed stop",
    ]);
    expect(checkSpanners(shown)).toEqual([]);
    expect(scoreFromTree(shown).score.parts[0]?.notes).toEqual(scoreFromTree(tree).score.parts[0]?.notes);
  });

  it("leaves a piece without cuts as it is", () => {
    expect(showCuts(tree, [])).toBe(tree);
  });
});
