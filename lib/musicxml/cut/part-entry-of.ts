import type { MusicXmlTree } from "../read-tree";
import { child, childrenNamed, textOf, type XmlElement } from "../xml-tree";

/** The entry of a part in the list of parts; null when it has none. */
export function partEntryOf(tree: Pick<MusicXmlTree, "root">, part: XmlElement): XmlElement | null {
  const list = child(tree.root, "part-list");
  if (!list) return null;
  return (
    childrenNamed(list, "score-part").find(({ attributes }) => attributes.id === part.attributes.id) ?? null
  );
}

/** The printed name of a part; null when it has none. */
export function partNameOf(tree: Pick<MusicXmlTree, "root">, part: XmlElement): string | null {
  const entry = partEntryOf(tree, part);
  return (entry && textOf(child(entry, "part-name")).trim()) || null;
}
