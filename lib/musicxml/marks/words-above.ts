import { element, type XmlElement } from "../xml-tree";

/**
 * Sizes in points, beside music whose words usually have 12. The generic families tell the players' words from those of a
 * source, which names its own fonts.
 */
const looks = {
  cue: { "font-family": "sans-serif", "font-style": "normal", "font-size": "10", "font-weight": "bold" },
  "lead-in": {
    "font-family": "sans-serif",
    "font-style": "normal",
    "font-size": "9",
    "font-weight": "normal",
  },
  remark: { "font-family": "serif", "font-style": "italic", "font-size": "10", "font-weight": "normal" },
} as const;

/** Words above a staff as players write them: instruments upright without serifs, remarks in italics; lines of text are kept. */
export function wordsAbove(text: string, look: keyof typeof looks): XmlElement {
  return element(
    "direction",
    { placement: "above" },
    element("direction-type", {}, element("words", looks[look], text)),
    element("staff", {}, "1"),
  );
}
