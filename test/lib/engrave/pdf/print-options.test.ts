import { describe, expect, it } from "vitest";
import { pageShapes, sidesOf } from "@/lib/engrave/pdf/page-shape";
import {
  defaultPrintOptions,
  markKinds,
  printOptionsSchema,
  staffSizes,
  writePrintQuery,
} from "@/lib/engrave/pdf/print-options";

const ofQuery = (query: string) =>
  printOptionsSchema.safeParse({ reader: "soloist", ...Object.fromEntries(new URLSearchParams(query)) });

describe("print options", () => {
  it("have a staff of their own for each reader", () => {
    expect(defaultPrintOptions("pianist")).toMatchObject({ staff: "medium", paper: "A4", cuts: "removed" });
    expect(defaultPrintOptions("soloist").staff).toBe("large");
  });

  it.each(["A4", "Letter", "tablet"] as const)("come back from an address: %s", (paper) => {
    for (const staff of staffSizes) {
      const options = printOptionsSchema.parse({
        reader: "soloist",
        paper,
        staff,
        marks: ["lead-ins", "cues"],
      });
      expect(ofQuery(`${writePrintQuery(options)}`).data).toEqual(options);
    }
  });

  it("know that no marks were asked for from none being named", () => {
    expect(ofQuery("marks=").data?.marks).toEqual([]);
    expect(ofQuery("").data?.marks).toEqual(markKinds.filter((kind) => kind !== "lead-ins"));
  });

  it.each(["paper=A0", "staff=huge", "cuts=hidden", "sides=double", "marks=breaths,coffee"])(
    "refuse %s",
    (query) => {
      expect(ofQuery(query).success).toBe(false);
    },
  );

  it("turn every page of a tablet, which is three wide by four high", () => {
    expect(sidesOf({ paper: "tablet", sides: "facing-left" })).toBe("single");
    expect(sidesOf({ paper: "A4", sides: "facing-left" })).toBe("facing-left");
    expect(pageShapes.tablet.width / pageShapes.tablet.height).toBe(3 / 4);
  });
});
