import { element, type XmlElement } from "../xml-tree";

/** Sizes in points, beside music whose words usually have 10 to 12. */
const looks = {
  cue: { "font-size": "10", "font-weight": "bold" },
  remark: { "font-size": "9", "font-weight": "normal" },
} as const;

/** Upright words without serifs above a staff, as the players write them; lines of text are kept. */
export function wordsAbove(text: string, look: "cue" | "remark"): XmlElement {
  const style = {
    "font-family": "sans-serif",
    "font-style": "normal",
    ...looks[look],
  };
  return element(
    "direction",
    { placement: "above" },
    element("direction-type", {}, element("words", style, text)),
    element("staff", {}, "1"),
  );
}
