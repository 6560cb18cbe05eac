import { child, childElements, childrenNamed, element, textOf, type XmlElement } from "../xml-tree";
import { isRightBarline } from "./measure-parts";

/** The words over a cut, in the trade's spelling: "Vi-" where it starts, "-de" where the music goes on. */
export const viWord = "Vi–";
export const deWord = "–de";

export function wordsDirection(text: string, align: "left" | "right"): XmlElement {
  const style = { "font-style": "italic", "font-weight": "bold", "font-size": "14", halign: align };
  return element(
    "direction",
    { placement: "above" },
    element("direction-type", {}, element("words", style, text)),
  );
}

/** A bar line that looks like more than the end of any bar, or sends the reader elsewhere, already marks the place. */
function isPlain(barline: XmlElement): boolean {
  const style = textOf(child(barline, "bar-style")).trim() || "regular";
  const isStructural = childElements(barline).some(({ name }) => /^(repeat|ending|segno|coda)$/.test(name));
  return !isStructural && /^(regular|dashed|dotted|tick|short|none|light-light)$/.test(style);
}

/** Writes a bar line of the given style at the end of a measure. */
export function setEndBarline(measure: XmlElement, style: "light-light" | "light-heavy"): void {
  const barline = childrenNamed(measure, "barline").findLast(isRightBarline);
  if (!barline) {
    measure.children.push(element("barline", { location: "right" }, element("bar-style", {}, style)));
    return;
  }
  if (!isPlain(barline)) return;
  const written = child(barline, "bar-style");
  if (written) written.children = [{ kind: "text", text: style }];
  else barline.children.unshift(element("bar-style", {}, style));
}

/** Whether a measure starts with a repeat or another bar line that marks the place. */
export function hasStartBarline(measure: XmlElement): boolean {
  return childrenNamed(measure, "barline").some(
    (barline) => barline.attributes.location === "left" && !isPlain(barline),
  );
}

export const middleBarline = (): XmlElement =>
  element("barline", { location: "middle" }, element("bar-style", {}, "light-light"));
