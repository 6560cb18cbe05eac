import { describe, expect, it } from "vitest";
import { showSilentBars } from "@/lib/engrave/normalise/show-silent-bars";
import { readTree } from "@/lib/musicxml/read-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";

const hidden = ' print-object="no"';
const rest = (attributes: string, measure = ' measure="yes"', staff = 1) =>
  `<note${attributes}><rest${measure}/><duration>4</duration><staff>${staff}</staff></note>`;
const back = "<backup><duration>4</duration></backup>";
const note = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>";

/** How many notes and rests of the bar are shown. */
function shown(music: string, details = ""): number {
  const attributes = `<attributes><divisions>1</divisions>${details}</attributes>`;
  const text = `<score-partwise version="4.0"><part-list><score-part id="P"><part-name/></score-part></part-list><part id="P"><measure number="1">${attributes}${music}</measure></part></score-partwise>`;
  const tree = readTree(new TextEncoder().encode(text));
  if (!tree.ok) throw new Error(tree.problem.kind);
  showSilentBars(tree.value);
  return childrenNamed(tree.value.parts[0] ?? tree.value.root, "measure")
    .flatMap((measure) => childrenNamed(measure, "note"))
    .filter((each) => each.attributes["print-object"] !== "no").length;
}

describe("showSilentBars", () => {
  it("shows the rest of a silent bar, one on each staff", () => {
    expect(shown(rest(hidden))).toBe(1);
    expect(shown(`${rest(hidden)}${back}${rest(hidden)}`)).toBe(1);
    expect(shown(`${rest(hidden)}${back}${rest(hidden, undefined, 2)}`)).toBe(2);
    expect(shown(rest(""))).toBe(1);
  });

  it("leaves hidden what stands beside music, for a part of a bar, or in an ossia", () => {
    expect(shown(`${note}${back}${rest(hidden)}`)).toBe(1);
    expect(shown(`${note}${back}${rest(hidden, undefined, 2)}`)).toBe(1);
    expect(shown(rest(hidden, ""))).toBe(0);
    const ossia = "<staff-details><staff-type>ossia</staff-type></staff-details>";
    expect(shown(rest(hidden), ossia)).toBe(0);
  });
});
