import { describe, expect, it } from "vitest";
import { readSystem } from "@/lib/engrave/picture/inert-svg";

const lines = [0, 180, 360, 540, 720].map((y) => `<path d="M0 ${y} L9000 ${y}" stroke-width="13"/>`).join("");
const bar = (
  inside: string,
) => `<svg viewBox="0 0 1000 300"><svg class="definition-scale" viewBox="0 0 10000 3000">
<g class="page-margin"><g class="system"><g class="measure" id="b0"><g class="staff">${lines}</g>${inside}</g></g></g></svg></svg>`;
const sign = (code: string) => `<use xlink:href="#${code}-x1" transform="translate(1, 2) scale(0.4, 0.4)"/>`;
const clef = `<g class="clef">${sign("E050")}</g>`;
const key = (code: string) => `<g class="keySig"><g class="keyAccid">${sign(code)}</g></g>`;
const accidental = `<g class="accid">${sign("E261")}</g>`;
const ossia = (...inside: string[]) => `<g class="ossia"><g class="oStaff">${inside.join("")}</g></g>`;

/** The signs that are drawn. */
const drawn = (inside: string): string =>
  [...readSystem(bar(inside), 0, new Map([["b0", 0]])).svg.matchAll(/href="#s0-(\w+)"/g)]
    .map(([, code]) => code)
    .join(" ");

describe("the key with which an ossia begins", () => {
  it("shows what holds, and no naturals for what held before", () => {
    expect(drawn(ossia(clef, key("E261"), accidental))).toBe("E050 E261");
    expect(drawn(ossia(clef, key("E262")))).toBe("E050 E262");
  });

  it("leaves naturals where an ossia goes on, and on every other staff", () => {
    expect(drawn(ossia(key("E261")))).toBe("E261");
    expect(drawn(`<g class="staff">${clef}${key("E261")}</g>`)).toBe("E050 E261");
    expect(drawn(`${ossia(clef)}<g class="staff">${key("E261")}</g>${ossia(key("E261"))}`)).toBe(
      "E050 E261 E261",
    );
  });
});
