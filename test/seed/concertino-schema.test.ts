import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { validateXML } from "xmllint-wasm";
import { writeFullScore } from "@/seed/concertino/write-full-score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

const corpus = process.env.COLLA_CORPUS ?? fileURLToPath(new URL("../../../shared/corpus", import.meta.url));
const schema = join(corpus, "schema");
const isPresent = existsSync(join(schema, "musicxml.xsd"));
if (!isPresent) console.log("Skipped: no MusicXML schema beside the project (COLLA_CORPUS).");

describe.skipIf(!isPresent)("MusicXML 4.0 schema", () => {
  it.each([
    ["solo-and-reduction.musicxml", writeSoloAndReduction],
    ["full-score.musicxml", writeFullScore],
  ])(
    "%s is valid",
    async (fileName, write) => {
      const read = (name: string) => ({ fileName: name, contents: readFileSync(join(schema, name), "utf8") });
      const { valid, errors } = await validateXML({
        xml: { fileName, contents: withoutDoctype(write()) },
        schema: read("musicxml.xsd"),
        preload: [read("xlink.xsd"), read("xml.xsd")],
        initialMemoryPages: 4096,
        maxMemoryPages: 8192,
      });
      expect(errors.map(({ message, loc }) => `${loc?.lineNumber}: ${message}`).slice(0, 10)).toEqual([]);
      expect(valid).toBe(true);
    },
    60_000,
  );
});

/** The DTD lies on the net; the schema is what is checked here. */
function withoutDoctype(xml: string): string {
  return xml.replace(/<!DOCTYPE[^>]*>\n/, "");
}
