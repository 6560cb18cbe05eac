import { expect, it } from "vitest";
import { type PictureTexts, WordGatherer } from "@/lib/engrave/picture/picture-words";

const about = { width: 10_000, height: 3600, staves: { top: 2000, bottom: 2720 }, notes: [] };

it("takes the count over a long rest for a sign, with room for what hangs from words over it, and before it", () => {
  const out: string[] = [];
  const gatherer = new WordGatherer(out);
  gatherer.open("g", ["multiRestNum"], { x: 0, y: 0 });
  gatherer.open("use", [], { x: 600, y: 1680 });
  gatherer.addSign({ x: 600, y: 1680 });
  gatherer.close("use");
  gatherer.close("g");
  gatherer.begin("dir", { x: 0, y: 0 });
  out.push("<text>together. (N.)</text>");
  gatherer.end();
  let texts: PictureTexts | null = null;
  gatherer.arrange((given) => {
    texts = given;
    return { moves: [{ x: 0, y: 0 }], rise: 0, fall: 0, covered: [] };
  }, about);
  // The figures are 360 high around their middle.
  expect(texts).toMatchObject({
    signs: [{ left: 600 - 100, right: 930, top: 1680 - 180 - 50, bottom: 1860 }],
  });
});
