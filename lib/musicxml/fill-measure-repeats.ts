import { laterOf, noQuarters } from "@/lib/score/quarters";
import type { IdBook } from "./assign-ids";
import { readLimits } from "./limits";
import type { NoticeBook } from "./notice-book";
import { ReadFailure } from "./read-failure";
import type { PartDraft, RepeatedBars, ScoreDraft } from "./score-draft";

/**
 * Fills bars that only carry the sign to repeat the bars before them (MusicXML 4.0, `measure-repeat`) with the notes
 * that are to be played. The copies get ids of their own bar. A bar that writes its notes out is left as it is.
 */
export function fillMeasureRepeats(score: ScoreDraft, ids: IdBook, notices: NoticeBook): void {
  const filler = new Filler(score, ids, notices);
  for (const partIndex of score.parts.keys()) filler.fillPart(partIndex);
}

type Meant = (placed: { readonly staff: number }) => boolean;

class Filler {
  private copied = 0;

  constructor(
    private readonly score: ScoreDraft,
    private readonly ids: IdBook,
    private readonly notices: NoticeBook,
  ) {}

  fillPart(partIndex: number): void {
    const part = this.score.parts[partIndex];
    for (const region of part?.repeatedBars ?? []) if (part) this.fillRegion(part, partIndex, region);
  }

  private fillRegion(
    part: PartDraft,
    partIndex: number,
    { firstBar, endBar, pattern, staff }: RepeatedBars,
  ): void {
    const isMeant: Meant = (placed) => staff === null || placed.staff === staff;
    // A part may be shorter than the piece: there is nothing to fill beyond its end.
    const end = Math.min(endBar ?? part.notes.length, part.notes.length);
    for (let barIndex = firstBar; barIndex < end; barIndex += 1) {
      if (part.notes[barIndex]?.some(isMeant)) continue;
      this.dropRests(part, partIndex, barIndex, isMeant);
      this.copyBar(
        part,
        partIndex,
        firstBar - pattern + ((barIndex - firstBar) % pattern),
        barIndex,
        isMeant,
      );
      const sentence = "A sign repeats earlier bars here; their notes were read in its place.";
      const { label } = this.score.barAt(barIndex);
      this.notices.add("measure-repeat", sentence, part.identity.name, label);
    }
  }

  private dropRests(part: PartDraft, partIndex: number, barIndex: number, isMeant: Meant): void {
    const bar = this.score.barAt(barIndex);
    part.rests[barIndex] = (part.rests[barIndex] ?? []).filter((rest) => !isMeant(rest));
    bar.wholeBarRests = bar.wholeBarRests.filter(
      (found) => found.partIndex !== partIndex || !isMeant(found.rest),
    );
  }

  private copyBar(part: PartDraft, partIndex: number, from: number, to: number, isMeant: Meant): void {
    const bar = this.score.barAt(to);
    const notes = (part.notes[from] ?? []).filter(isMeant);
    const rests = (part.rests[from] ?? []).filter(isMeant);
    this.copied += notes.length + rests.length;
    if (this.copied > readLimits.notes) throw new ReadFailure({ kind: "too-many-notes" });
    let place = 0;
    const idOf = () => this.ids.claim(`n${partIndex}-${to}-r${place++}`);
    for (const note of notes) part.notes[to]?.push({ ...note, id: idOf(), barIndex: to });
    for (const rest of rests) {
      const copy = { ...rest, id: idOf(), barIndex: to };
      part.rests[to]?.push(copy);
      if (copy.isWholeBar) bar.wholeBarRests.push({ rest: copy, written: null, partIndex });
    }
    const reached = this.score.barAt(from).reachedInParts[partIndex] ?? noQuarters;
    bar.reachedInParts[partIndex] = laterOf(bar.reachedInParts[partIndex] ?? noQuarters, reached);
    bar.reached = laterOf(bar.reached, reached);
  }
}
