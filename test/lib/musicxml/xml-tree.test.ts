import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { decodeText } from "@/lib/musicxml/decode-text";
import { parseXml } from "@/lib/musicxml/parse-xml";
import { writeXml } from "@/lib/musicxml/write-xml";
import {
  child,
  childrenNamed,
  cloneElement,
  element,
  textOf,
  type XmlDocument,
} from "@/lib/musicxml/xml-tree";
import { corpusFolder, corpusScores, readCorpusFile } from "@/test/corpus/corpus-folder";

function parse(text: string): XmlDocument {
  const parsed = parseXml(text);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
  return parsed.value;
}

const rewrite = (text: string): string => writeXml(parse(text));

describe("documents that come back character for character", () => {
  it.each([
    [
      "order, blanks and empty elements of both kinds",
      '<a>\n  <b x="1" y="2"/>\n\t<c></c> text <b/>\n</a>\n',
    ],
    [
      "comments, instructions and CDATA",
      "<?a b?><!-- <x> & --><a><!----><![CDATA[<&>]]><?php 1 < 2 ?></a><!-- end -->\n",
    ],
    ["a document type", '<!DOCTYPE a PUBLIC "-//x" "http://localhost/a.dtd">\n<a/>'],
    ["escaped characters", '<a b="&lt;&amp;&quot;&gt;">&lt;i&gt; &amp;amp;</a>'],
    ["line ends of both kinds", "<a>\r\n  <b/>\r\n</a>\r\n"],
    ["characters beyond the basic plane", "<a>𝄞 ‿ é</a>"],
    [
      "names that objects have",
      '<__proto__ __proto__="1" constructor="2" hasOwnProperty="3"><toString/></__proto__>',
    ],
    ["a declaration", '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n<a/>'],
  ])("%s", (_name, text) => {
    expect(rewrite(text)).toBe(text);
  });
});

describe("spellings that are made alike", () => {
  it.each([
    ["single quotes", "<a b='1'/>", '<a b="1"/>'],
    ["blanks inside tags", '<a  b = "1"\n c="2" />', '<a b="1" c="2"/>'],
    ["references to characters", "<a>&#233;&quot;&apos;&#x1D11E;</a>", "<a>é\"'𝄞</a>"],
    ["unescaped angle brackets", "<a>1 > 0</a>", "<a>1 &gt; 0</a>"],
    [
      "the encoding, which is UTF-8 from then on",
      '<?xml version="1.0" encoding="ISO-8859-1"?><a/>',
      '<?xml version="1.0" encoding="UTF-8"?><a/>',
    ],
    ["a reference to a carriage return stays one", "<a>&#13;</a>", "<a>&#13;</a>"],
    ["a line end in an attribute stays one", '<a b="x&#10;y"/>', '<a b="x&#10;y"/>'],
  ])("%s", (_name, text, expected) => {
    expect(rewrite(text)).toBe(expected);
  });

  it("makes what XML cannot hold visible instead of writing a broken file", () => {
    const document = parse("<a/>");
    document.root.children.push({ kind: "text", text: "a\u0000b\ud800c" }, { kind: "cdata", text: "x]]>y" });
    const text = writeXml(document);
    expect(text).toBe("<a>a\ufffdb\ufffdc<![CDATA[x]]]]><![CDATA[>y]]></a>");
    expect(textOf(parse(text).root)).toBe("a\ufffdb\ufffdcx]]>y");
  });
});

describe("finding one's way", () => {
  const { root } = parse("<a>1<b>2</b><c/><b>3<d>4</d><![CDATA[5]]></b></a>");

  it("by name", () => {
    expect(child(root, "b")?.children).toEqual([{ kind: "text", text: "2" }]);
    expect(child(root, "x")).toBeNull();
    expect(childrenNamed(root, "b").map(textOf)).toEqual(["2", "345"]);
    expect(textOf(root)).toBe("12345");
    expect(textOf(null)).toBe("");
  });

  it("builds and copies without sharing", () => {
    const built = element("note", { id: "n1" }, element("voice", {}, "1"));
    const copy = cloneElement(built);
    copy.attributes.id = "n2";
    copy.children.pop();
    expect(built).toEqual(element("note", { id: "n1" }, element("voice", {}, "1")));
  });
});

describe.skipIf(corpusFolder === null)("real files", () => {
  const folders = ["solo-piano", "songs", "full-score", "pairs", "harmony", "conformance"];
  const texts = corpusScores(...folders)
    .filter((file) => !file.includes("32ad"))
    .map((file) => ({ file, text: textInside(file) }));

  it.each(texts.map(({ file, text }) => [file, text] as const))("loses nothing of %s", (_file, text) => {
    const once = parse(text);
    const twice = parse(writeXml(once));
    expect(twice).toEqual(once);
    expect(writeXml(twice)).toBe(writeXml(once));
  });

  it("writes nine in ten of them as they were, the declaration apart", () => {
    const body = (text: string) => text.replace(/^<\?xml[^>]*\?>/, "");
    const same = texts.filter(({ text }) => body(rewrite(text)) === body(text));
    expect(same.length).toBeGreaterThanOrEqual(texts.length * 0.9);
  });
});

/** Unzipped by the library itself, past the project's own reader. */
function textInside(file: string): string {
  const bytes = readCorpusFile(file);
  const inside = file.endsWith(".mxl") ? Object.entries(unzipSync(bytes)) : [[file, bytes] as const];
  const found = inside.find(([name]) => /^(?!META-INF).*\.(xml|musicxml)$/.test(name));
  const text = found && decodeText(found[1]);
  if (!text?.ok) throw new Error(file);
  return text.value.text;
}
