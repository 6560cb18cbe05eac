import type { Note, Rest } from "@/lib/score/note";
import { laterOf, noQuarters } from "@/lib/score/quarters";
import type { IdBook } from "./assign-ids";
import type { NoticeBook } from "./notice-book";
import type { Draft, PartDraft, RepeatedBars, ScoreDraft } from "./score-draft";

/**
 * Fills bars that only carry the sign to repeat the bars before them (MusicXML 4.0, `measure-repeat`) with the notes
 * that are to be played. The copies get ids of their own bar. A bar that writes its notes out is left as it is.
 */
export function fillMeasureRepeats(score: ScoreDraft, ids: IdBook, notices: NoticeBook): void {
  score.parts.forEach((part, partIndex) => {
    for (const region of part.repeatedBars) fillRegion(region, part, partIndex, score, ids, notices);
  });
}

function fillRegion(
  region: RepeatedBars,
  part: PartDraft,
  partIndex: number,
  score: ScoreDraft,
  ids: IdBook,
  notices: NoticeBook,
): void {
  const { firstBar, pattern, staff } = region;
  const isMeant = (placed: { staff: number }) => staff === null || placed.staff === staff;
  const end = Math.min(region.endBar ?? score.barCount, score.barCount);
  for (let barIndex = firstBar; barIndex < end; barIndex += 1) {
    if (part.notes[barIndex]?.some(isMeant)) continue;
    const from = firstBar - pattern + ((barIndex - firstBar) % pattern);
    dropRests(score, part, partIndex, barIndex, isMeant);
    copyBar(score, part, partIndex, from, barIndex, ids, isMeant);
    const sentence = "A sign repeats earlier bars here; their notes were read in its place.";
    notices.add("measure-repeat", sentence, part.identity.name, score.bars[barIndex]?.label ?? null);
  }
}

type IsMeant = (placed: { staff: number }) => boolean;

function dropRests(
  score: ScoreDraft,
  part: PartDraft,
  partIndex: number,
  barIndex: number,
  isMeant: IsMeant,
): void {
  const bar = score.barAt(barIndex);
  part.rests[barIndex] = (part.rests[barIndex] ?? []).filter((rest) => !isMeant(rest));
  bar.wholeBarRests = bar.wholeBarRests.filter(
    (found) => found.partIndex !== partIndex || !isMeant(found.rest),
  );
}

function copyBar(
  score: ScoreDraft,
  part: PartDraft,
  partIndex: number,
  from: number,
  to: number,
  ids: IdBook,
  isMeant: IsMeant,
): void {
  const claim = () => ids.claim(`n${partIndex}-${to}-r`);
  const notes = (part.notes[from] ?? []).filter(isMeant);
  part.notes[to]?.push(...notes.map((note): Draft<Note> => ({ ...note, id: claim(), barIndex: to })));
  const bar = score.barAt(to);
  for (const rest of (part.rests[from] ?? []).filter(isMeant)) {
    const copy: Draft<Rest> = { ...rest, id: claim(), barIndex: to };
    part.rests[to]?.push(copy);
    if (copy.isWholeBar) bar.wholeBarRests.push({ rest: copy, written: null, partIndex });
  }
  const reached = score.bars[from]?.reachedInParts[partIndex] ?? noQuarters;
  bar.reachedInParts[partIndex] = laterOf(bar.reachedInParts[partIndex] ?? noQuarters, reached);
  bar.reached = laterOf(bar.reached, reached);
}
