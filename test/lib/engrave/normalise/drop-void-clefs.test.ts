import { describe, expect, it } from "vitest";
import { dropVoidClefs } from "@/lib/engrave/normalise/drop-void-clefs";
import { readTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf } from "@/lib/musicxml/xml-tree";

const written: Readonly<Record<string, string>> = {
  G: '<attributes><clef number="1"><sign>G</sign><line>2</line></clef></attributes>',
  F: '<attributes><clef number="1"><sign>F</sign><line>4</line></clef></attributes>',
  f: '<attributes><clef number="2"><sign>F</sign><line>4</line></clef></attributes>',
  g: '<attributes><clef number="2"><sign>G</sign><line>2</line></clef></attributes>',
  n: "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>",
  m: "<note><pitch><step>C</step><octave>3</octave></pitch><duration>4</duration><staff>2</staff></note>",
  M: "<note><pitch><step>C</step><octave>3</octave></pitch><duration>8</duration><staff>2</staff></note>",
  "<": "<backup><duration>8</duration></backup>",
};

/** Bars of clefs (small: of staff 2), notes of staff 1 (n) and 2 (m; M is as long as two), of which two fill a bar, and steps back to the start; a space ends a bar. What is left of them. */
function left(music: string): string {
  const bars = music.split(" ").map((bar, index) => {
    const inside = [...bar].map((sign) => written[sign]).join("");
    return `<measure number="${index + 1}"><attributes><divisions>2</divisions></attributes>${inside}</measure>`;
  });
  const text = `<score-partwise version="4.0"><part-list><score-part id="P"><part-name/></score-part></part-list><part id="P">${bars.join("")}</part></score-partwise>`;
  const tree = readTree(new TextEncoder().encode(text));
  if (!tree.ok) throw new Error(tree.problem.kind);
  dropVoidClefs(tree.value);
  return childrenNamed(tree.value.parts[0] ?? tree.value.root, "measure")
    .map((measure) =>
      childElements(measure)
        .flatMap((node) => {
          if (node.name === "note") return textOf(child(node, "staff")) === "2" ? "m" : "n";
          if (node.name === "backup") return "<";
          return childrenNamed(node, "clef").map((clef) => {
            const sign = textOf(childElements(clef)[0] ?? null);
            return clef.attributes.number === "2" ? sign.toLowerCase() : sign;
          });
        })
        .join(""),
    )
    .join(" ");
}

describe("dropVoidClefs", () => {
  it.each([
    ["leaves single clefs alone", "GnFn nnG nn Fnn", "GnFn nnG nn Fnn"],
    ["leaves out a clef that the next bar's takes back", "Gnn nnF Gnn", "Gnn nn nn"],
    ["keeps the next bar's where it changes something", "Gnn nFnG Fnn nnF Gnn", "Gnn nFn nn nn Gnn"],
    ["holds the staves apart", "Gfnn nnF gnn", "Gfnn nnF gnn"],
    ["reads it by the staff's own notes, in any voice", "Gfnn<mm nnf<mm gnn", "Gfnn<mm nn<mm gnn"],
    ["and behind the start of a long one", "Gfnn<M nfn<M gnn", "Gfnn<m nn<m gnn"],
    ["but not before another note", "Gfnn<mm nfn<mm gnn", "Gfnn<mm nfn<mm gnn"],
    ["does not take a clef inside a bar for one at its end", "Gnn nn<nF Gnn", "Gnn nn<nF Gnn"],
    ["lets one at the end of a bar hold on", "Gnn nnF nnG Fnn", "Gnn nnF nn nn"],
    ["lets the last bar end with one", "Gnn nnF", "Gnn nnF"],
  ])("%s", (_, music, expected) => {
    expect(left(music)).toBe(expected);
  });
});
