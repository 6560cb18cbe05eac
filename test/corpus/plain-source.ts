import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { child, childElements, type XmlElement } from "@/lib/musicxml/xml-tree";

/** What is taken out before the engraver counts, so that both count what is written. */
const takenOut: readonly {
  readonly name: string;
  readonly why: string;
  readonly is: (element: XmlElement) => boolean;
}[] = [
  {
    name: "grace notes",
    why: "written without time; the engraver plays them, in time that it takes from the notes around them",
    is: (element) => element.name === "note" && child(element, "grace") !== null,
  },
  {
    name: "arpeggios",
    why: "written as one chord; the engraver staggers its notes",
    is: (element) => element.name === "arpeggiate" || element.name === "non-arpeggiate",
  },
  {
    name: "multi-bar rests and other measure styles",
    why: "the engraver folds the bars of a multi-bar rest into one and drops other parts' notes in them",
    is: (element) => element.name === "measure-style",
  },
];

function takeOut(element: XmlElement): void {
  const kept = element.children.filter(
    (node) => node.kind !== "element" || !takenOut.some(({ is }) => is(node)),
  );
  element.children.splice(0, element.children.length, ...kept);
  for (const inner of childElements(element)) takeOut(inner);
}

/** The source as the engraver is to read it. It changes the tree. */
export function writePlainSource(tree: MusicXmlTree): string {
  takeOut(tree.root);
  return writeTree(tree);
}
