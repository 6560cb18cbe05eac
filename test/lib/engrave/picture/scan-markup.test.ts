import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPicture } from "@/lib/engrave/picture/read-picture";
import { scanMarkup } from "@/lib/engrave/picture/scan-markup";
import { parseXml } from "@/lib/musicxml/parse-xml";
import { writeXmlElement } from "@/lib/musicxml/write-xml";
import { element, type XmlElement } from "@/lib/musicxml/xml-tree";

function events(markup: string): string[] {
  const told: string[] = [];
  scanMarkup(markup, {
    open: (name, attributes) => told.push(`<${name} ${JSON.stringify(attributes)}`),
    close: (name) => told.push(`/${name}`),
    text: (text) => told.push(text),
  });
  return told;
}

describe("scanMarkup", () => {
  it("tells elements, attributes and text in their order", () => {
    expect(events('<?xml version="1.0"?><!-- so --><a><b x="1" y-z="&lt;2"/>t &amp; &#x266D;</a>')).toEqual([
      ...["<a {}", '<b {"x":"1","y-z":"<2"}', "/b", "t & ♭", "/a"],
    ]);
  });

  it("gives CDATA as text", () => {
    expect(events("<a><![CDATA[<b>]]></a>")).toEqual(["<a {}", "<b>", "/a"]);
  });

  it.each([
    ["an element that never ends", "<a><b></b>"],
    ["elements that end in the wrong order", "<a><b></a></b>"],
    ["an end without a beginning", "</a>"],
    ["an attribute without quotes", "<a x=1/>"],
    ["an entity of its own", "<a>&own;</a>"],
    ["a document type", "<!DOCTYPE a><a/>"],
    ["a comment that never ends", "<a/><!-- "],
    ["a sign outside of all code points", "<a>&#9999999;</a>"],
  ])("refuses %s", (_, markup) => {
    expect(() => events(markup)).toThrow();
  });
});

const name = fc.constantFrom("g", "path", "text", "tspan", "use");
const words = fc
  .string({ unit: "grapheme", minLength: 1, maxLength: 6 })
  .filter((text) => !/[\p{C}\s]/u.test(text));
const { tree } = fc.letrec<{ tree: XmlElement }>((tie) => ({
  tree: fc
    .record({
      name,
      attributes: fc.dictionary(fc.constantFrom("d", "x", "font-size", "href"), words),
      children: fc.array(fc.oneof({ depthSize: "small" }, words, tie("tree")), { maxLength: 3 }),
    })
    .map((made) => element(made.name, made.attributes, ...made.children)),
}));

describe("readPicture", () => {
  it("reads what the general parser reads", () => {
    fc.assert(
      fc.property(tree, (inner) => {
        const markup = writeXmlElement(element("svg", {}, inner));
        const parsed = parseXml(markup);
        expect(parsed.ok && writeXmlElement(parsed.value.root)).toBe(writeXmlElement(readPicture(markup)));
      }),
    );
  });

  it("refuses what is none of our pictures", () => {
    expect(() => readPicture("<html/>")).toThrow();
    expect(() => readPicture("")).toThrow();
  });
});
