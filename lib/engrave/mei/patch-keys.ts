import { parseXml } from "@/lib/musicxml/parse-xml";
import { writeXml } from "@/lib/musicxml/write-xml";
import { childElements, element, type XmlElement } from "@/lib/musicxml/xml-tree";
import type { KeyChange } from "./staff-keys";

/**
 * Writes each staff's own key into the engraver's notation (MEI): its importer gives every staff the key changes of
 * the first.
 *
 * @returns the text unchanged when there are none, and when it is not the engraver's own.
 */
export function patchKeys(mei: string, changes: readonly KeyChange[]): string {
  if (changes.length === 0) return mei;
  const parsed = parseXml(mei);
  if (!parsed.ok) return mei;
  const byMeasure = new Map(changes.map((change) => [change.measureId, change]));
  for (const holder of findHolders(parsed.value.root)) patchHolder(holder, byMeasure);
  return writeXml(parsed.value);
}

/** Elements that have measures among their children. */
function findHolders(node: XmlElement): XmlElement[] {
  const inner = childElements(node);
  if (node.name === "measure") return [];
  const own = inner.some(({ name }) => name === "measure") ? [node] : [];
  return [...own, ...inner.flatMap(findHolders)];
}

function patchHolder(holder: XmlElement, byMeasure: ReadonlyMap<string, KeyChange>): void {
  const children: XmlElement["children"] = [];
  for (const node of holder.children) {
    if (node.kind === "element" && node.name === "scoreDef") {
      node.children = node.children.filter((inner) => inner.kind !== "element" || inner.name !== "keySig");
      if (childElements(node).length === 0) continue;
    }
    const change =
      node.kind === "element" && node.name === "measure" && byMeasure.get(node.attributes["xml:id"] ?? "");
    if (change) children.push(keyDefinition(change));
    children.push(node);
  }
  holder.children = children;
}

/** MEI 5, `keySig/@sig`: "3s", "2f" or "0". */
function keyDefinition({ fifthsOfStaff }: KeyChange): XmlElement {
  const staves = [...fifthsOfStaff].map(([staff, fifths]) => {
    const sig = fifths === 0 ? "0" : `${Math.abs(fifths)}${fifths > 0 ? "s" : "f"}`;
    return element("staffDef", { n: `${staff}` }, element("keySig", { sig }));
  });
  return element("scoreDef", {}, element("staffGrp", {}, ...staves));
}
