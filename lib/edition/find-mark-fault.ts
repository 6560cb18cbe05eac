import { comparePositions } from "@/lib/score/position";
import { compareQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { EditionContent } from "./edition-content";
import type { MarkKind } from "./mark-change";
import { sharesBars } from "./pair-marks";
import { type PositionTerms, toPosition } from "./position-terms";

const words: Readonly<Record<MarkKind, string>> = {
  breath: "A breath",
  cue: "A cue",
  rewrite: "A rewrite",
  remark: "A printed comment",
};

/** What keeps breaths, cues, rewrites and printed comments from standing in this music, in a sentence; null when nothing does. */
export function findMarkFault(score: Score, content: EditionContent): string | null {
  const outside = listPlaces(content).find(({ place }) => !isInside(score, place));
  if (outside) {
    const { kind, place } = outside;
    return `${words[kind]} stands at bar ${place.barIndex + 1} of the source, ${place.offset} quarters in, and there is no such place.`;
  }
  const spans = [...content.rewrites, ...content.remarks];
  const empty = content.rewrites.find(
    ({ from, to }) => comparePositions(toPosition(from), toPosition(to)) >= 0,
  );
  const backward = spans.find(({ from, to }) => comparePositions(toPosition(from), toPosition(to)) > 0);
  const turned = empty ?? backward;
  if (turned) return `Something ends before it begins, in bar ${score.bars[turned.from.barIndex]?.label}.`;
  return findRewriteFault(score, content);
}

function findRewriteFault(score: Score, { rewrites, sourceHash }: EditionContent): string | null {
  if (rewrites.some((rewrite) => rewrite.sourceHash !== sourceHash))
    return "A rewrite was made for another file.";
  const strange = rewrites.find(({ partId }) => score.parts.every(({ id }) => id !== partId));
  if (strange) return `A rewrite is of part ${strange.partId}, which the music does not have.`;
  const twice = rewrites.find((one, index) =>
    rewrites.slice(0, index).some((other) => sharesBars(one, other)),
  );
  return twice ? `Two rewrites overlap in bar ${score.bars[twice.from.barIndex]?.label}.` : null;
}

function listPlaces(content: EditionContent): { kind: MarkKind; place: PositionTerms }[] {
  const { breaths, cues, rewrites, remarks } = content;
  return [
    ...breaths.map(({ at }) => ({ kind: "breath" as const, place: at })),
    ...cues.map(({ at }) => ({ kind: "cue" as const, place: at })),
    ...rewrites.flatMap(({ from, to, events }) =>
      [from, to, ...events.map(({ at }) => at)].map((place) => ({ kind: "rewrite" as const, place })),
    ),
    ...remarks.flatMap(({ from, to }) => [from, to].map((place) => ({ kind: "remark" as const, place }))),
  ];
}

function isInside(score: Score, place: PositionTerms): boolean {
  const bar = score.bars[place.barIndex];
  return bar !== undefined && compareQuarters(toPosition(place).offset, bar.length) <= 0;
}
