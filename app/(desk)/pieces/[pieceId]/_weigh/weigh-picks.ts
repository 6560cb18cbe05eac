import type { Desk } from "@/app/_data/desk/desk";
import { nameSpan } from "@/app/_ui/name-span";
import { positionTermsSchema } from "@/lib/edition/position-terms";
import type { CutEnds } from "../_cuts/cut-questions";

/** A cut that is weighed against another: one that was proposed, or any two ends. */
export type WeighPick =
  | { readonly kind: "proposal"; readonly id: string }
  | ({ readonly kind: "ends" } & CutEnds);

/** One spelling for one pick; it stands in the address. Ends are indexes of bars and offsets: "84:0~96:3/2". */
export function writePick(pick: WeighPick): string {
  if (pick.kind === "proposal") return pick.id;
  const { from, to } = pick;
  return `${from.barIndex}:${from.offset}~${to.barIndex}:${to.offset}`;
}

function readEnd(text: string) {
  const [bar = "", offset = ""] = text.split(":");
  const read = positionTermsSchema.safeParse({ barIndex: /^\d+$/.test(bar) ? Number(bar) : -1, offset });
  return read.success ? read.data : null;
}

const idPattern = /^[\w-]{1,64}$/;

/** @returns null for text that names no pick. */
export function readPick(text: string): WeighPick | null {
  if (!text.includes(":")) return idPattern.test(text) ? { kind: "proposal", id: text } : null;
  const [from, to] = text.split("~").map(readEnd);
  return from && to ? { kind: "ends", from, to } : null;
}

/** The two picks of an address; fewer when it names fewer. */
export function readPicks(text: string | null): WeighPick[] {
  return (text ?? "")
    .split(",")
    .slice(0, 2)
    .flatMap((one) => readPick(one) ?? []);
}

export const isSamePick = (a: WeighPick, b: WeighPick): boolean => writePick(a) === writePick(b);

/** Adds one to those chosen: the second of two gives way, and one that is chosen already changes nothing. */
export function addPick(picks: readonly WeighPick[], pick: WeighPick): WeighPick[] {
  if (picks.some((other) => isSamePick(other, pick))) return [...picks];
  return [...picks.slice(0, 1), pick];
}

/** A pick as the screen knows it; `number` null where nothing was proposed. */
export interface PickedCut extends CutEnds {
  readonly number: number | null;
  /** "Cut 2: bars 85–96", "Bars 85–92". */
  readonly name: string;
}

/** @returns null for a proposal that is not there, or whose bars are those of another file. */
export function findPicked(desk: Pick<Desk, "cuts" | "bars">, pick: WeighPick): PickedCut | null {
  if (pick.kind === "ends") {
    const { from, to } = pick;
    if (!desk.bars[from.barIndex] || !desk.bars[to.barIndex]) return null;
    const name = nameSpan(desk.bars, from, to);
    return { from, to, number: null, name: name.charAt(0).toUpperCase() + name.slice(1) };
  }
  const cut = desk.cuts.find(({ id }) => id === pick.id);
  if (!cut || cut.isStale) return null;
  return { from: cut.from, to: cut.to, number: cut.number, name: `Cut ${cut.number}: ${cut.name}` };
}
