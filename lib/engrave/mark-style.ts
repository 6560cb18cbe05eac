import type { XmlElement } from "@/lib/musicxml/xml-tree";

/** How the players' own words are set. */
export interface MarkStyle {
  readonly family: "sans-serif" | "serif";
  /** Of the size that words have otherwise. */
  readonly factor: number;
}

/** In points: what words have that say no size. */
const usualPoints = 12;
const families = ["sans-serif", "serif"] as const;

/**
 * The engraver (verovio 6.3.0) forgets families and sizes of words, but keeps their colour: family and percent of the size are
 * told by one that looks black. For words in a generic family, which are those of the players; no other words have it.
 *
 * @param words changed in place.
 */
export function tellMarkStyle({ attributes }: XmlElement): void {
  delete attributes.color;
  const name: string = attributes["font-family"] ?? "";
  const family: number = (families as readonly string[]).indexOf(name);
  if (family === -1) return;
  const points = Number(attributes["font-size"]);
  const percent = points > 0 ? Math.min(100, Math.round((100 * points) / usualPoints)) : 100;
  attributes.color = `#00${hex(family + 1)}${hex(percent)}`;
}

const hex = (number: number): string => number.toString(16).padStart(2, "0");

/** The style that a colour tells; null for any other colour. */
export function readMarkStyle(color: string | undefined): MarkStyle | null {
  const found = /^#00(0[12])([0-6][0-9a-f])$/.exec(color ?? "");
  const family = families[Number(found?.[1] ?? 0) - 1];
  return found && family ? { family, factor: Number.parseInt(found[2] ?? "64", 16) / 100 } : null;
}
