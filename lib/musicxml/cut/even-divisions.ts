import { type Quarters, quarters } from "@/lib/score/quarters";
import { divideExactly, readDecimal } from "../exact-time";
import { child, childElements, childrenNamed, element, textOf, type XmlElement } from "../xml-tree";

/** The largest that programs which read whole numbers take. Irregular tuplets side by side reach a million. */
const mostDivisions = 2 ** 31 - 1;

/** A duration as it stands in the file, with the divisions that hold there. */
interface WrittenTime {
  readonly node: XmlElement;
  readonly value: Quarters;
}

/**
 * Gives a part one value of `divisions` for its whole length, so that bars can be cut and joined freely, fine enough
 * for every duration of the part and for the places where it will be cut. Nothing sounds or looks different.
 *
 * @param part changed in place.
 * @param places offsets inside bars that have to be whole numbers of divisions.
 * @returns the divisions of a quarter note.
 * @throws RangeError if that would need more than `mostDivisions`.
 */
export function evenDivisions(part: XmlElement, places: readonly Quarters[]): number {
  const { times, used } = readTimes(part);
  const needed = leastCommon([...times.map((time) => time.value.den), ...places.map((place) => place.den)]);
  const kept = used.every(Number.isInteger) ? leastCommon([...used, needed]) : needed;
  const divisions = kept <= mostDivisions ? kept : needed;
  if (divisions > mostDivisions) {
    throw new RangeError(`The part needs ${divisions} divisions of a quarter note`);
  }
  if (used.length === 1 && used[0] === divisions && !hasLaterDivisions(part)) return divisions;
  for (const { node, value } of times) setText(node, writeTicks(value, divisions));
  setDivisions(part, divisions);
  return divisions;
}

function readTimes(part: XmlElement): { times: WrittenTime[]; used: number[] } {
  const times: WrittenTime[] = [];
  const used = new Set<number>();
  let divisions = { num: 1, den: 1 };
  const visit = (node: XmlElement): void => {
    if (node.name === "divisions") {
      const own = readDecimal(textOf(node));
      if (own && own.num > 0) divisions = own;
    } else if (node.name === "duration" || node.name === "offset") {
      used.add(divisions.num / divisions.den);
      const ticks = readDecimal(textOf(node));
      const value = ticks && divideExactly(ticks, divisions);
      if (value) times.push({ node, value });
    } else for (const inner of childElements(node)) visit(inner);
  };
  visit(part);
  return { times, used: used.size === 0 ? [divisions.num / divisions.den] : [...used] };
}

/** A whole number for every duration; an `offset`, which is only for the eye, may keep decimals. */
function writeTicks(value: Quarters, divisions: number): string {
  const ticks = quarters(value.num * divisions, value.den);
  return ticks.den === 1 ? `${ticks.num}` : (ticks.num / ticks.den).toFixed(5);
}

function hasLaterDivisions(part: XmlElement): boolean {
  const found = childrenNamed(part, "measure").flatMap((measure) =>
    childrenNamed(measure, "attributes").filter((attributes) => child(attributes, "divisions")),
  );
  return found.length > 1;
}

function setDivisions(part: XmlElement, divisions: number): void {
  const measures = childrenNamed(part, "measure");
  for (const measure of measures) {
    for (const attributes of childrenNamed(measure, "attributes")) {
      attributes.children = attributes.children.filter(
        (node) => node.kind !== "element" || node.name !== "divisions",
      );
    }
    measure.children = measure.children.filter(
      (node) => node.kind !== "element" || node.name !== "attributes" || childElements(node).length > 0,
    );
  }
  const first = measures[0];
  if (!first) return;
  const written = element("divisions", {}, `${divisions}`);
  const attributes = child(first, "attributes");
  if (attributes && isBeforeMusic(first, attributes)) attributes.children.unshift(written);
  else first.children.unshift(element("attributes", {}, written));
}

function isBeforeMusic(measure: XmlElement, attributes: XmlElement): boolean {
  const music = childElements(measure).findIndex((node) => child(node, "duration") !== null);
  return music === -1 || childElements(measure).indexOf(attributes) < music;
}

export function setText(node: XmlElement, text: string): void {
  node.children = [{ kind: "text", text }];
}

function leastCommon(values: readonly number[]): number {
  let least = 1;
  for (const value of new Set(values)) {
    least = (least / greatestCommon(least, value)) * value;
    if (!Number.isSafeInteger(least)) return Number.MAX_SAFE_INTEGER;
  }
  return least;
}

function greatestCommon(a: number, b: number): number {
  return b === 0 ? a : greatestCommon(b, a % b);
}
