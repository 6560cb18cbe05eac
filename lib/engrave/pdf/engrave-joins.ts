import type { Join } from "@/lib/musicxml/cut/apply-cuts";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";
import type { EngraveLayout } from "../engrave-layout";
import { engraveSystems } from "../engrave-systems";
import type { EngravedSystem } from "../screen-engraving";
import type { Engraver } from "../toolkit";
import type { CutSheetInput } from "./cut-sheet-input";
import { takeEditionMusic } from "./edition-music";

/** A join as it is printed: two bars before it and two after. */
export interface EngravedJoin {
  readonly join: Join;
  readonly system: EngravedSystem;
  /** Where the join is, in units of the picture; null when it is inside a bar. */
  readonly x: number | null;
}

const barsAround = 2;
/** Wider and wider until the bars stand in one system. */
const widenings = [1, 1.25, 1.6, 2.1, 2.8];

/** Engraves what meets at each cut, the reduction only, each in one system. */
export function engraveJoins(
  toolkit: Engraver["toolkit"],
  source: MusicXmlTree,
  input: CutSheetInput,
  layout: Pick<EngraveLayout, "systemUnits">,
): EngravedJoin[] {
  const edition = { partRoles: input.partRoles, cuts: input.cuts.map((cut) => cut.span) };
  const { tree, joins } = takeEditionMusic(source, edition, ["reduction"], true);
  const plain = takeEditionMusic(source, edition, ["reduction"], false).tree;
  const barCount = childrenNamed(tree.parts[0] ?? tree.root, "measure").length;
  return joins.map((join) => {
    const first = Math.max(0, join.cutBarIndex - barsAround);
    const last = Math.min(barCount - 1, join.cutBarIndex + barsAround - 1);
    // Inside a bar the words come from the engraver, which knows the place.
    const { isOneBar } = join.sentenceParts;
    const excerpt = () => takeExcerpt(isOneBar ? tree : plain, Math.min(first, last), last);
    // The bar after the join gets its number from us: the engraver's would stand on the line that marks the join.
    const isNumbered = (barIndex: number) => isOneBar || barIndex !== join.cutBarIndex - first;
    const system = engraveInOneSystem(toolkit, excerpt, layout.systemUnits, isNumbered);
    const box = system.bars.find(({ barIndex }) => barIndex === join.cutBarIndex - first);
    const end = system.bars.at(-1);
    const x = box?.x ?? (end ? end.x + end.width : null);
    return { join, system, x: isOneBar ? null : x };
  });
}

function engraveInOneSystem(
  toolkit: Engraver["toolkit"],
  excerpt: () => MusicXmlTree,
  systemUnits: number,
  isNumbered: (barIndex: number) => boolean,
): EngravedSystem {
  let widest: EngravedSystem | null = null;
  for (const factor of widenings) {
    const layout: EngraveLayout = {
      systemUnits: systemUnits * factor,
      spacing: 0.6,
      barNumbers: "every-bar",
      firstLabels: "none",
      takesWantedBreaks: false,
      fillsLastSystem: true,
    };
    const systems = [...engraveSystems(toolkit, excerpt(), layout, { isNumbered })];
    widest = systems[0] ?? widest;
    if (systems.length === 1) break;
  }
  if (!widest) throw new Error("The engraver gave no picture of a join");
  return widest;
}
