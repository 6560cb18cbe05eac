import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";
import { type EngraveLayout, reloadOptions, toolkitOptions } from "./engrave-layout";
import { patchKeys } from "./mei/patch-keys";
import { findStaffKeys } from "./mei/staff-keys";
import { type NormaliseOptions, normaliseForEngraving } from "./normalise/normalise";
import { findOssiaStaves } from "./ossia/find-ossia-staves";
import { ossiaOptions } from "./ossia/ossia-options";
import { patchOssias } from "./ossia/patch-ossias";
import { readSystem } from "./picture/inert-svg";
import type { EngravedSystem } from "./screen-engraving";
import type { Engraver } from "./toolkit";

/**
 * Engraves a score, one system to a picture, in order. Laying out the whole score comes first and takes most of the
 * time; the systems then follow quickly.
 *
 * @param tree changed in place.
 * @param onLoaded told how many systems there will be.
 * @throws Error if the engraver cannot make anything of the score.
 */
export function* engraveSystems(
  toolkit: Engraver["toolkit"],
  tree: MusicXmlTree,
  layout: EngraveLayout,
  options: Omit<NormaliseOptions, "firstLabels"> & {
    onLoaded?: (systemCount: number) => void;
    isNumbered?: (barIndex: number) => boolean;
  },
): Generator<EngravedSystem> {
  const barOfId = new Map(
    childrenNamed(tree.parts[0] ?? tree.root, "measure").map((measure, index) => [
      measure.attributes.id ?? "",
      index,
    ]),
  );
  normaliseForEngraving(tree, { ...options, firstLabels: layout.firstLabels });
  const wanted = toolkitOptions(layout);
  load(toolkit, tree, wanted);
  const count = toolkit.getPageCount();
  if (count === 0) throw new Error("The engraver found nothing to draw");
  options.onLoaded?.(count);
  for (let page = 1; page <= count; page += 1) {
    yield readSystem(toolkit.renderToSVG(page), page - 1, barOfId, {
      ...(options.isNumbered && { isNumbered: options.isNumbered }),
    });
  }
}

function load(
  toolkit: Engraver["toolkit"],
  tree: MusicXmlTree,
  wanted: ReturnType<typeof toolkitOptions>,
): void {
  const keys = findStaffKeys(tree);
  const ossias = findOssiaStaves(tree);
  const isPatched = keys.length > 0 || ossias.length > 0;
  // Keys and ossias are patched in the engraver's own notation: a first loading, without a layout, makes it.
  toolkit.setOptions(isPatched ? { ...wanted, breaks: "none" } : wanted);
  const isLoaded = toolkit.loadData(writeTree(tree));
  if (!isLoaded) throw new Error("The engraver could not load the score");
  if (!isPatched) return;
  const keyed = patchKeys(toolkit.getMEI({}), keys);
  toolkit.setOptions({ ...wanted, ...ossiaOptions(ossias), ...reloadOptions });
  if (!toolkit.loadData(patchOssias(keyed, ossias)))
    throw new Error("The engraver could not load the score with its keys");
}
