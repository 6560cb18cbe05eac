import { describe, expect, it } from "vitest";
import { patchSpans } from "@/lib/engrave/mei/patch-spans";

const measure = (id: string, ...ends: string[]) =>
  `<measure n="1" xml:id="${id}">${ends.map((end) => `<hairpin tstamp="1" tstamp2="${end}"/>`).join("")}</measure>`;
const ids = ["b0", "b1", "b2", "b3", "b4", "b5", "b6"];
const endsOf = (mei: string) => [...mei.matchAll(/tstamp2="([^"]+)"/g)].map(([, end]) => end);

describe("patchSpans", () => {
  it("leaves a score without rows of rests as it is", () => {
    const mei = ids.map((id) => measure(id, "2m+1")).join("");
    expect(patchSpans(mei, ids)).toBe(mei);
  });

  it("counts a row of rests as the one measure that it has become", () => {
    // Bars 1 to 4 are one measure.
    const mei = [measure("b0", "5m+3", "6m+1.5", "0m+4"), measure("b1", "4m+5"), measure("b5", "1m+2")];
    const rest = '<measure xml:id="b6"/>';
    expect(endsOf(patchSpans(mei.join("") + rest, ids))).toEqual(["2m+3", "3m+1.5", "0m+4", "1m+5", "1m+2"]);
  });

  it("ends a line that would end inside the row at the row", () => {
    const mei = measure("b0", "3m+1") + measure("b1") + measure("b5") + measure("b6");
    expect(endsOf(patchSpans(mei, ids))).toEqual(["1m+1"]);
  });
});
