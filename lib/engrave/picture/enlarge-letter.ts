/** Where the letter that is open stands, as far as it is known. */
export interface OpenLetter {
  isOpen: boolean;
  /** Lower edge of its box. */
  bottom: number;
  factor: number;
  /** How far its middle moves to the left. */
  shift: number;
}

/** Heights of the box of a rehearsal letter over a full staff and the least that is enlarged (verovio 6.3.0). */
const fullBox = 498;
const smallBox = 440;

/**
 * Makes the box and the text of a rehearsal letter over a small staff as large as over a full one. They grow upward
 * and to the left: to the right, words of tempo may follow.
 *
 * @param letter kept from element to element of one letter.
 * @param written what is written of the element; changed in place.
 */
export function enlargeLetter(
  letter: OpenLetter,
  name: string,
  attributes: Readonly<Record<string, string>>,
  written: [string, string][],
): void {
  if (!letter.isOpen) return;
  const value = (key: string) => Number.parseFloat(attributes[key] ?? "0");
  const put = (key: string, number: number, unit = "") => {
    const entry = written.find(([each]) => each === key);
    if (entry) entry[1] = `${Math.round(number)}${unit}`;
  };
  const { bottom, factor, shift } = letter;
  if (name === "rect") {
    const [x, y, width, height] = [value("x"), value("y"), value("width"), value("height")];
    letter.bottom = y + height;
    letter.factor = height < smallBox ? fullBox / height : 1;
    letter.shift = (width * (letter.factor - 1)) / 2;
    put("x", x - 2 * letter.shift);
    put("y", y - height * (letter.factor - 1));
    put("width", width * letter.factor);
    put("height", height * letter.factor);
  } else if (name === "text") {
    put("x", value("x") - shift);
    put("y", bottom - (bottom - value("y")) * factor);
  }
  if (name === "tspan" && attributes["font-size"]) put("font-size", value("font-size") * factor, "px");
}
