import { compareQuarters, isEqualQuarters } from "@/lib/score/quarters";
import type { TempoMark } from "@/lib/score/tempo-mark";
import type { NoticeBook } from "./notice-book";
import type { Draft, ScoreDraft, TempoDraft } from "./score-draft";
import { isTempo } from "./take-sound";

/**
 * One tempo mark for each place where any part gives one: the number of the first metronome mark there, else of a
 * `sound`, and the first words. A metronome mark that sets a new note value equal to an old one is worked out from the
 * tempo before it.
 *
 * @param tempi placed in written time.
 */
export function finishTempi(
  tempi: readonly Draft<TempoDraft>[],
  score: ScoreDraft,
  notices: NoticeBook,
): TempoMark[] {
  const marks: TempoMark[] = [];
  let current: number | null = null;
  for (const place of groupByOnset(tempi)) {
    const mark = joinPlace(place, current, score, notices);
    if (mark === null) continue;
    marks.push(mark);
    current = mark.quartersPerMinute ?? current;
  }
  return marks;
}

function groupByOnset(tempi: readonly TempoDraft[]): TempoDraft[][] {
  const groups: TempoDraft[][] = [];
  for (const tempo of tempi.toSorted((a, b) => compareQuarters(a.onset, b.onset))) {
    const last = groups.at(-1);
    if (last?.[0] && isEqualQuarters(last[0].onset, tempo.onset)) last.push(tempo);
    else groups.push([tempo]);
  }
  return groups;
}

function joinPlace(
  place: readonly TempoDraft[],
  current: number | null,
  score: ScoreDraft,
  notices: NoticeBook,
): TempoMark | null {
  const [first] = place;
  if (!first) return null;
  const label = score.bars[first.barIndex]?.label ?? null;
  const worked = place.map((tempo) => workOut(tempo, current, label, notices));
  const numbered =
    worked.find(({ source, quartersPerMinute }) => source === "metronome" && quartersPerMinute !== null) ??
    worked.find(({ quartersPerMinute }) => quartersPerMinute !== null);
  const words = worked.find((tempo) => tempo.words !== null)?.words ?? null;
  tellDifference(worked, label, notices);
  if (!numbered && words === null) return null;
  return {
    barIndex: (numbered ?? first).barIndex,
    onset: first.onset,
    words,
    quartersPerMinute: numbered?.quartersPerMinute ?? null,
    source: numbered?.source ?? "words",
  };
}

function workOut(
  tempo: TempoDraft,
  current: number | null,
  label: string | null,
  notices: NoticeBook,
): TempoDraft {
  if (tempo.modulation === null || tempo.quartersPerMinute !== null) return tempo;
  const quartersPerMinute = current === null ? null : current * tempo.modulation;
  if (quartersPerMinute !== null && isTempo(quartersPerMinute)) return { ...tempo, quartersPerMinute };
  const sentence = "A note value is set equal to another, but no tempo is known before it; it was left out.";
  notices.add("tempo-relation-unknown", sentence, tempo.partName, label);
  return tempo;
}

function tellDifference(place: readonly TempoDraft[], label: string | null, notices: NoticeBook): void {
  const printed = place.flatMap(({ source, quartersPerMinute }) =>
    source === "metronome" && quartersPerMinute !== null ? [quartersPerMinute] : [],
  );
  if (new Set(printed).size <= 1) return;
  notices.add("tempi-differ", `The parts print different tempi here (${printed[0]} was taken).`, null, label);
}
