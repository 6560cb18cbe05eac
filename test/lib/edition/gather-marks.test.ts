import { expect, test } from "vitest";
import { gatherMarks } from "@/lib/edition/gather-marks";
import { quarters } from "@/lib/score/quarters";
import { at, buildScore } from "@/test/builders/build-score";

const score = buildScore({ metre: "4/4", solo: "c5:w | c5:w | c5:w", piano: "c3:w | c3:w | c3:w" });
const place = (barIndex: number, offset = "0") => ({ barIndex, offset });

test("each mark once, in the order of the page, a place spelt in one way", () => {
  const gathered = gatherMarks(score, {
    breaths: [{ at: at(2) }, { at: at(0, 4) }, { at: at(1) }, { at: at(2, 4) }],
    cues: [
      { at: at(1), text: "Ob. Cafe\u0301" },
      { at: at(1), text: "Ob. Caf\u00e9" },
      { at: at(0), text: "Fl." },
    ],
    remarks: [{ from: at(1), to: at(2, 4), text: "wait", by: "Nerys Quill" }],
  });
  expect(gathered).toEqual({
    breaths: [{ at: place(1) }, { at: place(2) }, { at: place(2, "4") }],
    cues: [
      { at: place(0), text: "Fl." },
      { at: place(1), text: "Ob. Caf\u00e9" },
    ],
    rewrites: [],
    remarks: [{ from: place(1), to: place(2, "4"), text: "wait", by: "Nerys Quill" }],
  });
});

test("what lies on no bar, has no words, or more than fit, is left out", () => {
  const gathered = gatherMarks(score, {
    breaths: [{ at: at(3) }, { at: at(1, 5) }, { at: { barIndex: 1, offset: quarters(-1) } }],
    cues: [
      { at: at(1), text: " " },
      { at: at(1), text: "o".repeat(25) },
      { at: at(9), text: "Fl." },
    ],
    remarks: [
      { from: at(1), to: at(9), text: "wait", by: "Nerys Quill" },
      { from: at(1), to: at(2), text: "wait", by: "" },
    ],
  });
  expect(gathered).toEqual({ breaths: [], cues: [], rewrites: [], remarks: [] });
});
