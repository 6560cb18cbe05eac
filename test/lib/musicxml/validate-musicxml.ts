import { readFileSync } from "node:fs";
import path from "node:path";
import { validateXML } from "xmllint-wasm";
import { corpusFolder } from "@/test/corpus/corpus-folder";

/**
 * What libxml2 finds wrong with texts, by name, against the W3C's MusicXML 4.0 schema; empty when all are valid. The
 * schema lies in the corpus; the two that it imports are handed over so that nothing is fetched.
 */
export async function validateMusicXml(texts: ReadonlyMap<string, string>): Promise<string[]> {
  const schemaFile = (fileName: string) => ({
    fileName,
    contents: readFileSync(path.join(corpusFolder ?? "", "schema", fileName), "utf8"),
  });
  const xml = [...texts].map(([name, contents]) => ({ fileName: name.replace(/[^\w.-]/g, "_"), contents }));
  const { errors } = await validateXML({
    xml,
    schema: [schemaFile("musicxml.xsd")],
    preload: [schemaFile("xml.xsd"), schemaFile("xlink.xsd")],
    initialMemoryPages: 1_024,
    maxMemoryPages: 16_384,
  });
  return errors.map(({ rawMessage }) => rawMessage);
}
