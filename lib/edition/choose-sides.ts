/** What can be laid beside another: the piece as printed, a frozen edition by its number, or what stands now. */
export type SideName = "printed" | "working" | number;

/** What there is to compare: how many editions are frozen, and whether anything changed since the last one. */
export interface Choosable {
  readonly editionCount: number;
  readonly hasChanged: boolean;
}

/** Every side, the earliest first: the print, the editions, what stands now. */
export function listSides({ editionCount }: Pick<Choosable, "editionCount">): SideName[] {
  return ["printed", ...Array.from({ length: editionCount }, (_, index) => index + 1), "working"];
}

/** A side as an address writes it; null for any other text. */
export function readSide(text: unknown, choosable: Pick<Choosable, "editionCount">): SideName | null {
  return listSides(choosable).find((side) => String(side) === text) ?? null;
}

/**
 * Which two are laid side by side. What nobody chose is what is most asked for: the last edition and what stands
 * now; when nothing has changed since, the last step from one edition to the next.
 */
export function chooseSides(
  asked: { earlier: unknown; later: unknown },
  choosable: Choosable,
): { earlier: SideName; later: SideName } {
  const sides = listSides(choosable);
  const last = choosable.hasChanged ? sides.length - 1 : Math.max(1, sides.length - 2);
  const later = readSide(asked.later, choosable) ?? sides[last] ?? "working";
  const before = sides[Math.max(0, sides.indexOf(later) - 1)] ?? "printed";
  return { earlier: readSide(asked.earlier, choosable) ?? before, later };
}

/** "the print", "№ 2", "now". */
export function saySide(side: SideName): string {
  if (side === "printed") return "as printed";
  return side === "working" ? "as it stands" : `№ ${side}`;
}

/** The same inside a sentence about what is played or cut: "in № 2", "in the print", "as it stands". */
export function saySideInside(side: SideName): string {
  if (side === "printed") return "in the print";
  return typeof side === "number" ? `in ${saySide(side)}` : saySide(side);
}
