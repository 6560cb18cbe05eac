import { printedTempo } from "@/lib/edition/tempo-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import { quarters } from "@/lib/score/quarters";
import { openStudy, type Study } from "@/lib/study/open-study";
import type { PlantedCut, PlantedPosition } from "@/seed/concertino/planted";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

/** The demo's concertino, from the bytes that a player uploads. */
export function studyDemo(): Study {
  const bytes = new TextEncoder().encode(writeSoloAndReduction());
  const opened = openStudy(bytes, { partRoles: {}, tempo: printedTempo, longTuttiBars: 16 });
  if (!opened.ok) throw new Error(`the demo cannot be read: ${opened.problem.kind}`);
  return opened.value;
}

/** A place by the printed number of its bar. */
export function placeIn({ score }: Study, { bar, quarter }: PlantedPosition): Position {
  const barIndex = score.bars.findIndex(({ label }) => label === bar);
  if (barIndex < 0) throw new Error(`no bar is numbered ${bar}`);
  return { barIndex, offset: quarters(quarter) };
}

export function spanIn(study: Study, { from, to }: Pick<PlantedCut, "from" | "to">): CutSpan {
  return { from: placeIn(study, from), to: placeIn(study, to) };
}
