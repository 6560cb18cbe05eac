import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { validateXML } from "xmllint-wasm";
import { corpusFolder } from "@/test/corpus/corpus-folder";

const folder = corpusFolder && path.join(corpusFolder, "schema");

/** The MusicXML 4.0 schema lies in the corpus, not in the project. */
export const hasSchema: boolean = folder !== null && existsSync(path.join(folder, "musicxml.xsd"));

/** What the W3C's MusicXML 4.0 schema finds wrong with a file; at most ten faults. */
export async function findSchemaFaults(musicXml: string): Promise<string[]> {
  if (folder === null) throw new RangeError("The schema is absent");
  const read = (fileName: string) => ({
    fileName,
    contents: readFileSync(path.join(folder, fileName), "utf8"),
  });
  const { errors } = await validateXML({
    // The document type lies on the net; the schema is what is checked.
    xml: { fileName: "score.musicxml", contents: musicXml.replace(/<!DOCTYPE[^>]*>/, "") },
    schema: read("musicxml.xsd"),
    preload: [read("xlink.xsd"), read("xml.xsd")],
    initialMemoryPages: 4096,
    maxMemoryPages: 8192,
  });
  return errors.slice(0, 10).map(({ message }) => message);
}
