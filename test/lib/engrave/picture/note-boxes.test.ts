import { describe, expect, it } from "vitest";
import { NoteGatherer } from "@/lib/engrave/picture/note-boxes";

const shift = { x: 100, y: 50 };

describe("NoteGatherer", () => {
  it("knows heads and signs by their place and size, stems and beams by their lines", () => {
    const notes = new NoteGatherer();
    const put = (name: string, classes: string[], attributes: Record<string, string>, at = shift) => {
      notes.open(name, classes, attributes, at);
    };
    put("g", ["note"], {});
    put("g", ["notehead"], {});
    put("use", [], { transform: "translate(900, 450) scale(0.5, 0.5)" }, { x: 1000, y: 500 });
    notes.close();
    notes.close();
    put("g", ["stem"], {});
    put("path", [], { d: "M930 478 L930 1782" });
    notes.close();
    notes.close();
    notes.close();
    put("g", ["clef"], {});
    put("use", [], { transform: "translate(0, 0) scale(0.5, 0.5)" });
    expect(notes.list()).toEqual([
      { left: 1000, right: 1165, top: 435, bottom: 565 },
      { left: 1030, right: 1030, top: 508, bottom: 1852 },
    ]);
  });
});
