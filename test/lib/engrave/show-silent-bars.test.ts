import { describe, expect, it } from "vitest";
import { showSilentBars } from "@/lib/engrave/show-silent-bars";
import { readTree } from "@/lib/musicxml/read-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";

const hidden = ' print-object="no"';
const rest = (attributes: string, measure = ' measure="yes"') =>
  `<note${attributes}><rest${measure}/><duration>4</duration></note>`;
const note = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>";

/** How many notes and rests of the bar are shown. */
function shown(music: string, staves = 1, details = ""): number {
  const attributes = `<attributes><divisions>1</divisions><staves>${staves}</staves>${details}</attributes>`;
  const text = `<score-partwise version="4.0"><part-list><score-part id="P"><part-name/></score-part></part-list><part id="P"><measure number="1">${attributes}${music}</measure></part></score-partwise>`;
  const tree = readTree(new TextEncoder().encode(text));
  if (!tree.ok) throw new Error(tree.problem.kind);
  showSilentBars(tree.value);
  return childrenNamed(tree.value.parts[0] ?? tree.value.root, "measure")
    .flatMap((measure) => childrenNamed(measure, "note"))
    .filter((each) => each.attributes["print-object"] !== "no").length;
}

describe("showSilentBars", () => {
  it("shows the rest of a silent bar, of two hidden ones one", () => {
    expect(shown(rest(hidden))).toBe(1);
    expect(shown(`${rest(hidden)}<backup><duration>4</duration></backup>${rest(hidden)}`)).toBe(1);
    expect(shown(rest(""))).toBe(1);
  });

  it("leaves hidden what stands beside music, for a part of a bar, in a part of two staves or in an ossia", () => {
    expect(shown(`${note}<backup><duration>4</duration></backup>${rest(hidden)}`)).toBe(1);
    expect(shown(rest(hidden, ""))).toBe(0);
    expect(shown(rest(hidden), 2)).toBe(0);
    const ossia = "<staff-details><staff-type>ossia</staff-type></staff-details>";
    expect(shown(rest(hidden), 1, ossia)).toBe(0);
  });
});
