import { describe, expect, it } from "vitest";
import { breakPages } from "@/lib/engrave/mei/break-pages";

const bar = (id: string) => `<measure xml:id="${id}" n="1"><staff n="1"/></measure>`;
const broken = (mei: string, ...ids: string[]) => breakPages(mei, new Set(ids));

describe("breakPages", () => {
  it("begins a page at each measure that is asked for, and nowhere else", () => {
    const mei = `<section><pb xml:id="p"/>${bar("b0")}<sb/>${bar("b1")}<pb/>${bar("b2")}</section>`;
    expect(broken(mei, "b2")).toBe(`<section>${bar("b0")}${bar("b1")}<pb/>${bar("b2")}</section>`);
  });

  it("breaks before a change of key or metre, which stands on the new page", () => {
    const key = '<scoreDef><keySig sig="2s"/></scoreDef>';
    expect(broken(`<section>${bar("b0")}${key}${bar("b1")}</section>`, "b1")).toBe(
      `<section>${bar("b0")}<pb/>${key}${bar("b1")}</section>`,
    );
  });

  it("breaks between endings and sections, not inside them", () => {
    const mei = `<section><section>${bar("b0")}</section><ending n="1">${bar("b1")}</ending><ending n="2">${bar("b2")}</ending></section>`;
    expect(broken(mei, "b1", "b2")).toBe(
      `<section><section>${bar("b0")}</section><pb/><ending n="1">${bar("b1")}</ending><pb/><ending n="2">${bar("b2")}</ending></section>`,
    );
  });

  it("has no break before the first measure, nor for one that is not there", () => {
    const mei = `<section>${bar("b0")}${bar("b1")}</section>`;
    expect(broken(mei, "b0", "b9")).toBe(mei);
  });
});
