import { type Heard, listen } from "@/lib/cuts/join/listen";
import { readScore } from "@/lib/musicxml/read-score";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import { quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { PlantedPosition } from "@/seed/concertino/planted";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

function readConcertino(): Score {
  const read = readScore(new TextEncoder().encode(writeSoloAndReduction()));
  if (!read.ok) throw new Error(read.problem.kind);
  return read.value.score;
}

/** The demo's concertino, read from the MusicXML that the seed writes. */
export const concertino: Score = readConcertino();

let heard: Heard | null = null;

export function hearConcertino(): Heard {
  heard ??= listen(concertino);
  return heard;
}

export function positionOf({ bar, quarter }: PlantedPosition): Position {
  const found = concertino.bars.find(({ label }) => label === bar);
  if (!found) throw new RangeError(`No bar ${bar}`);
  return { barIndex: found.index, offset: quarters(quarter) };
}

export function cutOf({ from, to }: { from: PlantedPosition; to: PlantedPosition }): CutSpan {
  return { from: positionOf(from), to: positionOf(to) };
}
