import { copyTree } from "@/lib/musicxml/marks/writable-tree";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { findOssias } from "@/lib/musicxml/rewrite/ossia-part";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { beatOf } from "@/lib/score/beat-of";
import type { Part } from "@/lib/score/part";
import { type Quarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type EngraveLayout, type ScreenLayoutName, screenLayouts } from "../engrave-layout";
import { engraveSystems } from "../engrave-systems";
import type { Engraver } from "../toolkit";
import type { DrawnPassage } from "./drawn-passage";
import type { PassageInput } from "./passage-input";
import { passageOf } from "./passage-source";
import { shiftRewrite } from "./shift-rewrite";

/**
 * Draws some bars of one part alone, as printed, with a rewrite instead, or with it as an ossia; to be run in the thread that
 * engraves. Bars are counted as in the source.
 *
 * @throws SourceMissing, see `passageOf`. @throws Error if the engraver cannot make anything of the bars.
 */
export function drawPassage(toolkit: Engraver["toolkit"], input: PassageInput): DrawnPassage {
  const { fromBar, layout } = input;
  const tree = writeIn(passageOf(input), input);
  const { score } = scoreFromTree(tree);
  const places = placesIn(tree, score, input);
  const systems = [...engraveSystems(toolkit, tree, layoutOf(layout), {})].map(
    ({ width, height, bars, svg }) => ({
      ...{ width, height, svg },
      bars: bars.map((bar) => ({ ...bar, barIndex: bar.barIndex + fromBar, staves: [...bar.staves] })),
    }),
  );
  return { systems, ...places };
}

function writeIn(passage: MusicXmlTree, { rewrite, as, fromBar }: PassageInput): MusicXmlTree {
  if (!rewrite || as === "printed") return copyTree(passage);
  const shown = as === "ossia" ? "ossia" : "in place";
  return writeRewrites(passage, scoreFromTree(passage).score, [
    { ...shiftRewrite(rewrite, -fromBar), shown },
  ]);
}

/** Which part it is, is known; few bars are not drawn out over the whole width. */
function layoutOf(name: ScreenLayoutName): EngraveLayout {
  return { ...screenLayouts[name], firstLabels: "none" };
}

function placesIn(
  tree: MusicXmlTree,
  score: Score,
  { partId, fromBar }: PassageInput,
): Omit<DrawnPassage, "systems"> {
  const place = placer(score, fromBar);
  const ossias = new Map(findOssias(tree).map(({ part, ofStaff }) => [part.attributes.id, ofStaff]));
  const drawn = score.parts.flatMap((part) => {
    const ofStaff = ossias.get(part.id);
    const on = (staff: number) => ({ staff: ofStaff ?? staff, isOssia: ofStaff !== undefined });
    return [{ part, on }];
  });
  const own = score.parts.find(({ id }) => id === partId);
  return {
    notes: drawn.flatMap(({ part, on }) =>
      part.notes.flatMap(({ id, barIndex, onset, staff, voice, written, isHidden }) =>
        written && !isHidden ? [{ id, ...place(barIndex, onset), ...on(staff), voice, ...written }] : [],
      ),
    ),
    rests: drawn.flatMap(({ part, on }) =>
      part.rests.flatMap(({ id, barIndex, onset, staff, voice, isHidden }) =>
        isHidden ? [] : [{ id, ...place(barIndex, onset), ...on(staff), voice }],
      ),
    ),
    ...signsOf(own, place),
    bars: score.bars.map(({ index, label, length, metre }) => ({
      ...{ barIndex: index + fromBar, label },
      ...{ length: writeQuarters(length), beat: writeQuarters(beatOf(metre)) },
    })),
    staffCount: own?.staffCount ?? 1,
  };
}

type Placer = (barIndex: number, onset: Quarters) => { readonly barIndex: number; readonly offset: string };

function placer(score: Score, fromBar: number): Placer {
  return (barIndex, onset) => {
    const start = score.bars[barIndex]?.start;
    const offset = start ? subtractQuarters(onset, start) : onset;
    return { barIndex: barIndex + fromBar, offset: writeQuarters(offset) };
  };
}

function signsOf(part: Part | undefined, place: Placer): Pick<DrawnPassage, "clefs" | "keys"> {
  return {
    clefs: (part?.clefs ?? []).map(({ barIndex, onset, staff, sign, line, octaveChange }) => ({
      ...place(barIndex, onset),
      ...{ staff, sign, line, octaveChange },
    })),
    keys: (part?.keys ?? []).map(({ barIndex, onset, staff, fifths }) => ({
      ...place(barIndex, onset),
      ...{ staff, fifths },
    })),
  };
}
