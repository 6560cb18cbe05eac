import type { MusicXmlTree } from "./read-tree";
import { writeXml } from "./write-xml";

/** The tree as MusicXML text, to be stored as UTF-8; `writeXml` tells what of the source's spelling is not kept. */
export function writeTree(tree: MusicXmlTree): string {
  return writeXml(tree.document);
}
