import type { HomePiece } from "@/app/_data/read-home";

/** Pieces of the same music for several occasions together, the first piece first; the groups in the order of the list. */
export function groupByMusic(pieces: readonly HomePiece[]): HomePiece[][] {
  const groups = new Map<string, HomePiece[]>();
  for (const piece of pieces) {
    const { music } = piece.summary;
    groups.set(music, [...(groups.get(music) ?? []), piece]);
  }
  return [...groups.values()].map((group) =>
    group.toSorted((a, b) => Number(isFirst(b)) - Number(isFirst(a))),
  );
}

const isFirst = ({ summary }: HomePiece) => summary.id === summary.music;
