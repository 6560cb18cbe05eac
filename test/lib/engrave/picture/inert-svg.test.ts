import { describe, expect, it } from "vitest";
import { readSystem, renumberSystem } from "@/lib/engrave/picture/inert-svg";
import type { ArrangeWords, PictureTexts } from "@/lib/engrave/picture/picture-words";

const staff = (left: number, right: number, top: number) =>
  [0, 180, 360, 540, 720]
    .map((line) => `<path d="M${left} ${top + line} L${right} ${top + line}" stroke-width="13"/>`)
    .join("");

/** A page as the engraver draws it, with two bars of two staves and what is given inside the first. */
const page = (inside = "", defs = "") => `<svg viewBox="0 0 2820 900" id="q1" onload="act()">
<desc>Engraved</desc><defs>${defs}</defs><style>g.tempo {font-weight:bold}</style>
<svg class="definition-scale" color="black" font-family="Times" viewBox="0 0 28200 9000"><g class="page-margin" transform="translate(240, 200)">
<g class="system" id="q2">
<g class="measure" id="b4"><g class="mNum" id="q3"><text y="9"><tspan font-size="324px">5</tspan></text></g>
<g class="staff">${staff(0, 5000, 1000)}<g class="layer"><g class="note" id="n0-4-0">${inside}</g></g></g><g class="staff">${staff(0, 5000, 3000)}</g></g>
<g class="measure" id="b5"><g class="mNum" id="q4"><text y="9"><tspan font-size="324px">6</tspan></text></g>
<g class="staff">${staff(5000, 9000, 1000)}</g><g class="staff">${staff(5000, 9000, 3000)}</g></g>
</g></g></svg></svg>`;

const barOfId = new Map([
  ["b4", 4],
  ["b5", 5],
]);
const read = (inside = "", defs = "") => readSystem(page(inside, defs), 3, barOfId);

describe("readSystem", () => {
  it("gives the picture the units of its inside, and no size", () => {
    const { svg, width, height, index } = read();
    expect([width, height, index]).toEqual([28200, 9000, 3]);
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" viewBox="0 0 28200 9000" class="system">/,
    );
    expect(svg.match(/<svg/g)).toHaveLength(1);
  });

  it("finds bars and staves by their lines", () => {
    const { bars, firstBarIndex, lastBarIndex } = read();
    expect(bars).toEqual([
      {
        barIndex: 4,
        x: 240,
        width: 5000,
        top: 1200,
        bottom: 3920,
        staves: [
          { top: 1200, bottom: 1920 },
          { top: 3200, bottom: 3920 },
        ],
      },
      {
        barIndex: 5,
        x: 5240,
        width: 4000,
        top: 1200,
        bottom: 3920,
        staves: [
          { top: 1200, bottom: 1920 },
          { top: 3200, bottom: 3920 },
        ],
      },
    ]);
    expect([firstBarIndex, lastBarIndex]).toEqual([4, 5]);
  });

  it("keeps the ids of the score only", () => {
    expect([...read().svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)).toEqual(["b4", "n0-4-0", "b5"]);
  });

  it("keeps the glyphs of several pictures apart", () => {
    const { svg } = read(
      '<use xlink:href="#E0A4-x9" transform="translate(1, 2) scale(0.72, 0.72)"/>',
      '<g id="E0A4-x9"><path d="M0 0"/></g>',
    );
    expect(svg).toContain('<g id="s3-E0A4"><path d="M0 0"/></g>');
    expect(svg).toContain('<use href="#s3-E0A4" transform="translate(1, 2) scale(0.72, 0.72)"/>');
  });

  it("asks for the music font where a sign stands in text", () => {
    expect(
      read('<text x="1" y="2"><tspan font-family="Leipzig" font-size="9px">\ue1d5</tspan></text>').svg,
    ).toContain(
      '<tspan font-family="Leipzig" font-style="normal" font-weight="normal" class="music-sign" font-size="9px">\ue1d5</tspan>',
    );
  });

  it("leaves out numbers that are not wanted, but never a system's first", () => {
    const { svg } = readSystem(page(), 0, barOfId, { isNumbered: () => false });
    expect(svg).toContain(">5</tspan>");
    expect(svg).not.toContain(">6</tspan>");
  });

  it("writes a number that is needed and was left out, before the start of the bar, and no second one", () => {
    const numbers = { neededNumber: (bar: number, isFirst: boolean) => (isFirst ? `${bar + 100}` : null) };
    const without = page().replace(/<g class="mNum" id="q3">.*?<\/g>/, "");
    const { svg } = readSystem(without, 0, barOfId, numbers);
    expect(svg).toMatch(/<text [^>]*x="-60" y="757" text-anchor="end"[^>]*><tspan font-size="324px">104</);
    expect(readSystem(page(), 0, barOfId, numbers).svg).not.toContain("104");
  });

  it("lets a number inside a system end at its bar line", () => {
    const { svg } = readSystem(page(), 0, barOfId, { endsAtBarLine: () => true });
    expect(svg).toMatch(/<text stroke="none" text-anchor="end" y="9"><tspan font-size="324px">6</);
    expect(svg).toMatch(/<text stroke="none" y="9"><tspan font-size="324px">5</);
    // An empty number leaves what stands after it as it is.
    const empty = page().replace(
      /(<g class="mNum" id="q4">).*?<\/g>/,
      '$1</g><g class="reh"><text y="7"/></g>',
    );
    expect(readSystem(empty, 0, barOfId, { endsAtBarLine: () => true }).svg).not.toContain("text-anchor");
  });

  it("makes a letter over a small staff as large as over a full one, upward and to the left", () => {
    const letter =
      '<g class="reh"><rect x="1000" y="0" width="319" height="348"/><text x="1160" y="266" font-size="0px"><tspan font-size="283px">A</tspan></text></g>';
    const { svg } = readSystem(page(letter), 0, barOfId, { hasLargeLetters: true });
    expect(svg).toContain('<rect x="863" y="-150" width="457" height="498"/>');
    expect(svg).toContain('<tspan font-size="405px">A</tspan>');
    expect(read(letter).svg).toContain('width="319"');
  });

  it("keeps a line over the staff clear of it, and tells where it and the slurs are", () => {
    const seen: PictureTexts[] = [];
    const arrangeWords: ArrangeWords = (texts) => {
      seen.push(texts);
      return { moves: texts.words.map(() => ({ x: 0, y: 0 })), rise: 0, fall: 0, covered: [] };
    };
    const inside =
      '<g class="slur"><path d="M100,900 C200,600 400,600 500,900 C400,650 200,650 100,900"/></g>' +
      '<g class="bracketSpan"><polyline fill="none" points="90,1090 90,960 150,960"/><path d="M90 960 L4000 960"/></g>';
    const { svg } = readSystem(page(inside), 0, barOfId, { arrangeWords });
    expect(svg).toContain('points="90,965 90,835 150,835"');
    expect(svg).toContain('d="M90 835 L4000 835"');
    const lines = seen[0]?.lines ?? [];
    expect(lines).toHaveLength(12 + 2);
    // The highest of the slur is in its middle, everything is shifted by (240, 200).
    expect(lines[5]).toMatchObject({ right: 300 + 240, top: 675 + 200 - 20 });
    expect(lines.at(-1)).toEqual({ left: 330, right: 4240, top: 1015, bottom: 1055 });
    expect(read(inside).svg).toContain("M90 960");
    const high = inside.replaceAll(/\b960\b/g, "700");
    expect(readSystem(page(high), 0, barOfId, { arrangeWords }).svg).toContain("M90 700");
  });

  it("keeps the signs of a picture its own under another number", () => {
    const glyph = '<g id="E0A4-x1"><path d="M0 0 L1 1"/></g>';
    const third = read('<use href="#E0A4-x1" transform="translate(1, 2)"/>', glyph);
    const fifth = renumberSystem(third, 5);
    expect(fifth.index).toBe(5);
    expect(fifth.svg).toBe(third.svg.replaceAll("s3-", "s5-"));
    expect(fifth.svg).toContain('href="#s5-E0A4"');
  });

  it.each([
    ["a script", "<script>act()</script>"],
    ["a script in a group", "<g><script>act()</script></g>"],
    ["foreign content", '<foreignObject><body onload="act()"/></foreignObject>'],
    ["an event attribute", '<g onclick="act()" class="note"/>'],
    ["a style", '<g style="background:url(//act)"/>'],
    ["a style sheet", "<style>@import url(//act)</style>"],
    ["a foreign reference", '<use href="https://act/x.svg#a"/>'],
    ["an image", '<image href="https://act/x.png"/>'],
    ["a link", '<a href="javascript:act()"><text>x</text></a>'],
    ["an animation", '<animate attributeName="href" to="javascript:act()"/>'],
    ["a fill by reference", '<rect fill="url(https://act)" x="1" y="1" width="1" height="1"/>'],
    ["a transform that is none", '<g transform="act()"/>'],
    ["a path that is none", '<path d="M0 0 url(act)"/>'],
    ["a class that is none", '<g class="act(&quot;)"/>'],
    ["an id of its own", '<g class="stem" id="act"/>'],
  ])("lets no %s through", (_, inside) => {
    const { svg } = read(inside);
    expect(svg).not.toMatch(/act|script|foreign| style=|<style|<image|<a |animate|url\(/i);
  });

  it("keeps what a text says as text", () => {
    const { svg } = read("<text><tspan>&lt;script&gt;act()&lt;/script&gt; &amp; &quot;</tspan></text>");
    expect(svg).toContain("&lt;script&gt;act()&lt;/script&gt; &amp; &quot;");
  });
});
