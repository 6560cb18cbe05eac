import { describe, expect, it } from "vitest";
import { type PictureOptions, readSystem } from "@/lib/engrave/picture/inert-svg";

const lines = [0, 180, 360, 540, 720].map((y) => `<path d="M0 ${y} L9000 ${y}" stroke-width="13"/>`).join("");
const shift = { x: 240, y: 200 };

/** One bar as the engraver draws it. */
const bar = (
  inside: string,
) => `<svg viewBox="0 0 1000 300"><svg class="definition-scale" viewBox="0 0 10000 3000">
<g class="page-margin" transform="translate(${shift.x}, ${shift.y})"><g class="system"><g class="measure" id="b0">
<g class="staff">${lines}</g>${inside}</g></g></g></svg></svg>`;
const polyline = (points: string) => `<polyline stroke-width="18" fill="none" points="${points} "/>`;
const hairpin = (...points: string[]) => `<g class="hairpin">${points.map(polyline).join("")}</g>`;
const goesOn = (points: string) => `<g class="hairpin id-h1 spanning">${polyline(points)}</g>`;
/** "mf" is 637 thousandths of its size wide: 459 units. */
const mf = (x: number, y = 1600) =>
  `<g class="dynam"><use xlink:href="#E52D-x1" transform="translate(${x}, ${y}) scale(0.72, 0.72)"/></g>`;

const drawn = (inside: string, options: PictureOptions = {}): string[] =>
  [
    ...readSystem(bar(inside), 0, new Map([["b0", 0]]), options).svg.matchAll(
      /<polyline[^>]* points="([^"]*)"/g,
    ),
  ].map(([, points = ""]) => points.trim());

describe("hairpins and signs of loudness on one line", () => {
  it("leaves alone a hairpin that meets none", () => {
    const diminuendo = "1000,1655 3000,1520 1000,1385";
    expect(drawn(hairpin(diminuendo) + mf(3100) + mf(2000, 2600) + mf(400))).toEqual([diminuendo]);
  });

  it("ends before a sign at its end, pointed as before, whatever little would be left behind the sign", () => {
    expect(drawn(hairpin("1000,1655 3000,1520 1000,1385") + mf(2400))).toEqual([
      "1000,1655 2340,1520 1000,1385",
    ]);
  });

  it("begins behind a sign at its start", () => {
    expect(drawn(mf(1000) + hairpin("3000,1655 1010,1520 3000,1385"))).toEqual([
      "3000,1655 1519,1520 3000,1385",
    ]);
  });

  it("leaves off for a sign in between", () => {
    const [upper, lower, ...more] = [
      drawn(hairpin("1000,1600 5000,1500 1000,1400") + mf(2770)).slice(0, 2),
      drawn(hairpin("1000,1600 5000,1500 1000,1400") + mf(2770)).slice(2),
    ];
    expect(more).toEqual([]);
    expect(upper).toEqual(["1000,1600 2710,1557", "3289,1543 5000,1500"]);
    expect(lower).toEqual(["1000,1400 2710,1443", "3289,1457 5000,1500"]);
  });

  it("leaves off for a word on one of its lines, but not for one beside them", () => {
    const word = `<g class="dir"><text x="2000" y="1600"><tspan>cresc.</tspan></text></g>`;
    const over = (top: number, bottom: number): PictureOptions => ({
      // In the picture, which is shifted by (240, 200).
      arrangeWords: ({ words }) => ({
        ...{ moves: words.map(() => ({ x: 0, y: 0 })), rise: 0, fall: 0 },
        covered: [{ left: 3240, right: 3540, top: top + 200, bottom: bottom + 200 }],
      }),
    });
    const crescendo = "5000,1600 1000,1500 5000,1400";
    expect(drawn(hairpin(crescendo) + word, over(1440, 1560))).toHaveLength(4);
    expect(drawn(hairpin(crescendo) + word, over(1570, 1700))).toEqual([crescendo]);
    expect(drawn(hairpin(crescendo) + word, over(1300, 1430))).toEqual([crescendo]);
  });

  it("interrupts both lines of one that goes on in the next system", () => {
    expect(drawn(hairpin("1000,1500 9000,1400", "1000,1500 9000,1600") + mf(4770))).toEqual([
      ...["1000,1500 4710,1454", "5289,1446 9000,1400"],
      ...["1000,1500 4710,1546", "5289,1554 9000,1600"],
    ]);
  });

  it("sets a short one behind a sign that covers it", () => {
    expect(drawn(mf(1000) + hairpin("1500,1600 1010,1520 1500,1440"))).toEqual([
      "1629,1600 1519,1520 1629,1440",
    ]);
    expect(drawn(hairpin("1400,1600 1100,1520 1400,1440") + mf(1180))).toEqual([
      "1809,1600 1699,1520 1809,1440",
    ]);
  });

  it("does not draw what goes on to the first note of a line", () => {
    expect(drawn(goesOn("800,1545 1150,1520 800,1495"))).toEqual([]);
    expect(drawn(goesOn("800,1600 2600,1520 800,1440"))).toEqual(["800,1600 2600,1520 800,1440"]);
    expect(drawn(hairpin("800,1545 1150,1520 800,1495"))).toHaveLength(1);
  });
});
