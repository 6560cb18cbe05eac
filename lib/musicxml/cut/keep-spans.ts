import type { Notice } from "@/lib/score/notice";
import { noQuarters } from "@/lib/score/quarters";
import type { MusicXmlTree } from "../read-tree";
import type { XmlElement, XmlNode } from "../xml-tree";
import { buildMeasure } from "./build-measure";
import type { CuttableScore } from "./cuttable-score";
import { findCutNotices } from "./find-cut-notices";
import type { KeptSpan } from "./kept-spans";
import { findUnmarked, mendAccidentals } from "./mend-accidentals";
import { mendBeams } from "./mend-beams";
import { mendLyrics } from "./mend-lyrics";
import { mendMeasureStyles } from "./mend-measure-styles";
import { mendSpanners } from "./mend-spanners";
import { mendTies } from "./mend-ties";
import { beginMending, type Mending } from "./mending";
import { partNameOf } from "./part-entry-of";
import { isNote } from "./part-events";
import { type BarSlice, type PlannedBar, planBars } from "./planned-bars";
import { restateAtStarts } from "./restate-at-starts";
import { restateDynamics } from "./restate-dynamics";
import {
  type AttributesChange,
  attributesBefore,
  findAttributes,
  type RunningAttributes,
} from "./running-attributes";
import { findTempoSigns, restateTempo } from "./tempo-at";

/** What is left of a score. */
export interface KeptMusic {
  readonly tree: MusicXmlTree;
  readonly bars: readonly PlannedBar[];
  /** The new measures of each part, one for each of `bars`. */
  readonly measures: readonly (readonly XmlElement[])[];
  readonly notices: readonly Notice[];
}

/**
 * Leaves only the given spans of a score, which it changes, and repairs what their edges cut: see `applyCuts`.
 *
 * @param decorate is told of each part before its measures are built, to add what marks the joins.
 */
export function keepSpans(
  score: CuttableScore,
  spans: readonly KeptSpan[],
  decorate: (mending: Mending, bars: readonly PlannedBar[]) => void,
): KeptMusic {
  const bars = planBars(spans, score.lengths, score.metreLengths);
  const signs = findTempoSigns(score.parts);
  const tempi = spans.map((span, index) => restateTempo(signs, spans[index - 1]?.to ?? null, span.from));
  const notices: Notice[] = [];
  const measures = score.parts.map((music, partIndex) => {
    const mending = beginMending(music, spans);
    mendPart(mending, bars, partIndex === 0 ? tempi : []);
    decorate(mending, bars);
    notices.push(...findCutNotices(mending, partNameOf(score.tree, music.part)));
    const built = bars.flatMap((bar) => buildMeasure(mending, bar, score.lengths) ?? []);
    replaceMeasures(music.part, built);
    return built;
  });
  return { tree: score.tree, bars, measures, notices };
}

function mendPart(mending: Mending, bars: readonly PlannedBar[], tempi: readonly XmlElement[][]): void {
  const changes = findAttributes(mending.music);
  const beside = bars.filter((bar) => isBesideCut(mending, bar));
  const unmarked = new Set(beside.flatMap((bar) => findUnmarkedIn(mending, changes, bar)));
  restateAtStarts(mending, changes);
  for (const [index, nodes] of tempi.entries()) mending.atStart[index]?.push(...nodes);
  mendMeasureStyles(mending);
  mendSpanners(mending);
  restateDynamics(mending);
  mendTies(mending);
  mendBeams(mending);
  mendLyrics(mending);
  for (const bar of beside)
    mendAccidentals(
      bar.slices.map((slice) => scopeOf(mending, changes, slice)),
      unmarked,
    );
}

/** Whether a bar of the cut piece has another surrounding than in the source. */
function isBesideCut(mending: Mending, bar: PlannedBar): boolean {
  return bar.slices.some((slice) => mending.spans[slice.span]?.from.barIndex === slice.barIndex);
}

function findUnmarkedIn(
  mending: Mending,
  changes: readonly AttributesChange[],
  bar: PlannedBar,
): XmlElement[] {
  return bar.slices.flatMap(({ barIndex }) => [
    ...findUnmarked({
      running: runningIn(changes, barIndex),
      events: mending.music.bars[barIndex]?.events ?? [],
    }),
  ]);
}

/** What holds at the end of a bar; a key that changes inside a bar counts for all of it. */
function runningIn(changes: readonly AttributesChange[], barIndex: number): RunningAttributes {
  return attributesBefore(changes, { barIndex: barIndex + 1, offset: noQuarters });
}

function scopeOf(mending: Mending, changes: readonly AttributesChange[], slice: BarSlice) {
  const events = mending.music.bars[slice.barIndex]?.events ?? [];
  return {
    running: runningIn(changes, slice.barIndex),
    events: events.filter((event) => isNote(event) && mending.placeOf(event)?.span === slice.span),
  };
}

/** Puts the new measures in the place of all old ones; each keeps the white space before it. */
function replaceMeasures(part: XmlElement, measures: readonly XmlElement[]): void {
  const kept = new Set<XmlNode>(measures);
  const children: XmlNode[] = [];
  for (const node of part.children) {
    if (node.kind === "element" && node.name === "measure" && !kept.has(node)) {
      if (children.at(-1)?.kind === "text") children.pop();
    } else children.push(node);
  }
  part.children = children;
}
