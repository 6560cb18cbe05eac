import type { Bar } from "@/lib/score/bar";
import { isEqualQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import { beatsOf } from "./metre-beats";
import { floorTo } from "./split-at-beats";
import { isRestEvent, isTwoNoteTremolo, type WrittenPiece } from "./written-piece";

/** MusicXML 4.0, `beam-value`, of the first beam and those inside it. */
export type Beam = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/** Flags of the values that have any. */
const flags: Readonly<Record<string, number>> = { eighth: 1, "16th": 2, "32nd": 3, "64th": 4, "128th": 5 };

/**
 * The beams of a voice's pieces in one bar, by piece: one group a beat, and one a half bar of four beats when that is
 * all eighths (common practice). Rests end a group.
 */
export function beamPieces(
  pieces: readonly WrittenPiece[],
  bar: Pick<Bar, "metre" | "length">,
): Map<WrittenPiece, Beam[]> {
  const beams = new Map<WrittenPiece, Beam[]>();
  for (const group of findGroups(pieces, bar)) {
    if (group.length < 2) continue;
    for (const [index, piece] of group.entries()) {
      beams.set(
        piece,
        Array.from({ length: flagsOf(piece) }, (_, level) => beamAt(group, index, level + 1)),
      );
    }
  }
  return beams;
}

const flagsOf = ({ value }: WrittenPiece): number => (value && flags[value.type]) || 0;
const isBeamed = (piece: WrittenPiece): boolean =>
  flagsOf(piece) > 0 && !isRestEvent(piece.event) && !isTwoNoteTremolo(piece.event);

function findGroups(pieces: readonly WrittenPiece[], bar: Pick<Bar, "metre" | "length">): WrittenPiece[][] {
  const { beat, middle } = beatsOf(bar);
  const startOf = (at: Quarters): Quarters => {
    const half = middle && floorTo(at, middle);
    const isPlain = half && pieces.every((piece) => !isIn(piece, half, middle) || isPlainEighth(piece));
    return half && isPlain ? half : floorTo(at, beat);
  };
  const groups: WrittenPiece[][] = [];
  let key = "";
  for (const piece of pieces) {
    const own = isBeamed(piece) ? writeQuarters(startOf(piece.at)) : "";
    if (own !== "" && own === key) groups.at(-1)?.push(piece);
    else if (own !== "") groups.push([piece]);
    key = own;
  }
  return groups;
}

const isIn = ({ at }: WrittenPiece, half: Quarters, middle: Quarters): boolean =>
  isEqualQuarters(floorTo(at, middle), half);
const isPlainEighth = (piece: WrittenPiece): boolean =>
  piece.value?.type === "eighth" && piece.value.dots === 0 && !piece.ratio && isBeamed(piece);

function beamAt(group: readonly WrittenPiece[], index: number, level: number): Beam {
  const has = (at: number): boolean => {
    const piece = group[at];
    return piece !== undefined && flagsOf(piece) >= level;
  };
  const [before, after] = [has(index - 1), has(index + 1)];
  if (before && after) return "continue";
  if (before) return "end";
  if (after) return "begin";
  return index === 0 ? "forward hook" : "backward hook";
}
