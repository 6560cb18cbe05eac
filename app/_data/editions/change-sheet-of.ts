import { layInTime } from "@/app/_data/desk/in-time";
import { nameCut } from "@/lib/cuts/name-cut";
import { namePosition } from "@/lib/cuts/name-position";
import { compareEditions } from "@/lib/edition/compare-editions";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type {
  ChangeSheetInput,
  ChangeSheetSection,
  ChangeSheetSide,
} from "@/lib/engrave/pdf/change-sheet-input";
import { assignRoles } from "@/lib/score/assign-roles";
import type { Score } from "@/lib/score/score";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { cutSheetOf } from "./cut-sheet-of";

/** An edition, or the printed music before there was one. */
export type EarlierSide = EditionRecord | null;

/**
 * What the sheet says that tells what changed.
 *
 * @param score of the later edition's source.
 * @param earlier null compares with the printed music.
 */
export function changeSheetOf(
  score: Score,
  earlier: EarlierSide,
  later: EditionRecord,
  longTuttiBars: number,
): Pick<ChangeSheetInput, "barCount" | "sides" | "sections"> {
  const before = earlier?.content ?? printedContent(later.content);
  const { map } = layInTime(assignRoles(score, later.content.partRoles), later.content.tempo, longTuttiBars);
  const differences = compareEditions(score, map, before, later.content, {
    cut: (span) => nameCut(score, span),
    place: (position) => namePosition(score, position),
  });
  const isComparable = before.sourceHash === later.content.sourceHash;
  return {
    barCount: score.bars.filter((bar) => !bar.isPickup).length,
    sides: isComparable
      ? {
          earlier: sideOf(
            score,
            earlier ?? { content: before, cutNumbers: [] },
            nameSide(earlier),
            longTuttiBars,
          ),
          later: sideOf(score, later, nameSide(later), longTuttiBars),
        }
      : null,
    sections: sectionsOf(differences),
  };
}

/** The print: no cuts, no marks, no tempi of the duo's own. */
const printedContent = (content: EditionContent): EditionContent => ({
  ...content,
  ...noMarks,
  cuts: [],
  tempo: printedTempo,
});

const nameSide = (edition: EarlierSide): string =>
  edition ? `Edition № ${edition.number}` : "As it is printed";

function sideOf(
  score: Score,
  edition: Pick<EditionRecord, "content" | "cutNumbers">,
  name: string,
  longTuttiBars: number,
): ChangeSheetSide {
  const own = assignRoles(score, edition.content.partRoles);
  const { runningSeconds, playedBarCount, strip } = cutSheetOf(own, edition, longTuttiBars);
  return { name, runningSeconds, playedBarCount, strip };
}

const titles: readonly (readonly [string, readonly EditionDifference["kind"][]])[] = [
  ["The music", ["source-changed"]],
  ["Cuts", ["cut-added", "cut-removed", "cut-moved"]],
  ["What the pianist plays instead", ["rewrite-changed"]],
  ["Tempi", ["tempo-changed"]],
  ["Breaths", ["breath-changed"]],
  ["Cues", ["cue-changed"]],
  ["Printed comments", ["remark-changed"]],
  ["Parts", ["part-changed"]],
];

function sectionsOf(differences: readonly EditionDifference[]): ChangeSheetSection[] {
  return titles.map(([title, kinds]) => ({
    title,
    lines: differences
      .filter(({ kind }) => kinds.includes(kind))
      .map(({ sentence, secondsLonger }) => ({ sentence, secondsLonger })),
  }));
}
