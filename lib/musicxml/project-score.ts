import type { Direction } from "@/lib/score/direction";
import { guessRoles } from "@/lib/score/guess-roles";
import type { Part, PartRole } from "@/lib/score/part";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { ReadScore } from "@/lib/score/score";
import { IdBook } from "./assign-ids";
import { tellShortPart } from "./even-parts";
import { addTime } from "./exact-time";
import { fillMeasureRepeats } from "./fill-measure-repeats";
import { type PlacedBar, placeBars } from "./finish-bars";
import { fillJumps } from "./finish-jumps";
import { fillKeys } from "./finish-keys";
import { finishTempi } from "./finish-tempi";
import { readLimits } from "./limits";
import { MeasureState } from "./measure-state";
import { NoticeBook } from "./notice-book";
import { PartList } from "./part-list";
import { PartState } from "./part-state";
import { ReadFailure } from "./read-failure";
import { readMeasure } from "./read-measure";
import { type Draft, type PartDraft, ScoreDraft } from "./score-draft";
import { readScoreHead } from "./score-head";
import type { XmlElement } from "./xml-tree";

/** Characters of a printed bar number. */
const longestLabel = 40;

/**
 * Makes the score model from the measures of a partwise source, handed over one by one in document order: the one place
 * where MusicXML becomes music, whether a file is streamed or a tree is at hand.
 *
 * Throws `ReadFailure` where a source cannot become a score.
 */
export class ScoreProjector {
  readonly notices = new NoticeBook();
  private readonly draft = new ScoreDraft();
  private readonly ids = new IdBook(this.notices);
  private readonly barIds: string[] = [];
  private readonly list: PartList;
  private part: PartState | null = null;
  private element: XmlElement | null = null;
  private noteCount = 0;
  private measureCount = 0;

  /** @param root with its head; parts may still be missing. */
  constructor(
    private readonly root: XmlElement,
    head: readonly XmlElement[],
  ) {
    this.list = new PartList(root, this.notices);
    this.ids.reserve(head);
  }

  /** Starts a part, also one without measures. */
  takePart(element: XmlElement): void {
    if (element === this.element) return;
    this.element = element;
    if (this.draft.parts.length >= readLimits.parts) throw new ReadFailure({ kind: "too-many-parts" });
    const draft: PartDraft = {
      identity: this.list.identify(element),
      staffCount: 1,
      hasLyrics: false,
      notes: [],
      rests: [],
      directions: [],
      clefs: [],
      keys: [],
      transpositions: [],
      repeatedBars: [],
    };
    this.part = new PartState(this.draft.parts.length, draft);
    this.draft.parts.push(draft);
  }

  /** Takes the next measure of the part that was started last; writes the stable ids into it. */
  takeMeasure(measure: XmlElement): void {
    const { part } = this;
    if (part === null) throw new RangeError("A measure came before any part.");
    const { notes, rests, identity } = part.draft;
    const barIndex = notes.length;
    const { bars, measures } = readLimits;
    this.measureCount += 1;
    if (barIndex >= bars || this.measureCount > measures) this.refuseBars(identity.name);
    notes.push([]);
    rests.push([]);
    this.ids.assign(measure, part.partIndex, barIndex);
    if (part.partIndex === 0) this.barIds.push(measure.attributes.id ?? "");
    const bar = this.draft.barAt(barIndex);
    this.draft.barCount = Math.max(this.draft.barCount, barIndex + 1);
    bar.label ??= measure.attributes.number?.trim().slice(0, longestLabel) || null;
    if (measure.attributes.implicit === "yes") bar.isImplicit = true;
    readMeasure(measure, new MeasureState(this.draft, part, bar, barIndex, measure, this.notices));
    this.noteCount += (notes[barIndex]?.length ?? 0) + (rests[barIndex]?.length ?? 0);
    if (this.noteCount > readLimits.notes) throw new ReadFailure({ kind: "too-many-notes" });
  }

  finish(): ReadScore {
    const { draft, notices } = this;
    if (draft.parts.length === 0) throw new ReadFailure({ kind: "no-parts" });
    if (draft.barCount === 0) throw new ReadFailure({ kind: "no-bars" });
    if (draft.barCount * draft.parts.length > readLimits.measures) {
      this.refuseBars(draft.parts[0]?.identity.name ?? "");
    }
    this.list.tellMissing();
    this.tellShortParts();
    fillMeasureRepeats(draft, this.ids, notices);
    this.nameMissingBars();
    const bars = placeBars(draft, this.barIds, notices);
    for (const part of draft.parts) placePart(part, bars);
    for (const tempo of draft.tempi) tempo.onset = placed(tempo, bars);
    fillKeys(bars, draft.parts);
    fillJumps(bars, draft, notices);
    const tempoMarks = finishTempi(draft.tempi, draft, notices);
    const score = { ...readScoreHead(this.root, notices), bars, parts: finishParts(draft.parts), tempoMarks };
    return { score, notices: notices.list() };
  }

  private refuseBars(partName: string): never {
    throw new ReadFailure({ kind: "too-many-bars", partName });
  }

  private tellShortParts(): void {
    for (const part of this.draft.parts) {
      const own = part.notes.length;
      if (own < this.draft.barCount)
        tellShortPart(this.notices, part.identity.name, own, this.draft.barCount);
    }
  }

  /** Where the first part is shorter than another. */
  private nameMissingBars(): void {
    for (let index = this.barIds.length; index < this.draft.barCount; index += 1) {
      this.barIds.push(this.ids.claim(`b${index}`));
    }
  }
}

function placePart(part: PartDraft, bars: readonly PlacedBar[]): void {
  for (const notes of part.notes) {
    for (const note of notes) note.onset = placed(note, bars);
    notes.sort(byOnset);
  }
  for (const rests of part.rests) {
    for (const rest of rests) rest.onset = placed(rest, bars);
    rests.sort(byOnset);
  }
  for (const list of [part.directions, part.clefs, part.keys, part.transpositions]) {
    for (const item of list as Placed[]) item.onset = placed(item, bars);
    (list as Placed[]).sort(byOnset);
  }
}

interface Placed {
  readonly barIndex: number;
  onset: Quarters;
}

function byOnset(a: Placed, b: Placed): number {
  return compareQuarters(a.onset, b.onset);
}

/** From the offset in the bar to the time from the start of the piece; nothing lies behind the end of its bar. */
function placed({ barIndex, onset }: Placed, bars: readonly PlacedBar[]): Quarters {
  const bar = bars[barIndex];
  if (!bar) throw new RangeError(`No bar ${barIndex} among ${bars.length}.`);
  const offset = compareQuarters(onset, bar.length) > 0 ? bar.length : onset;
  const time = addTime(bar.start, offset);
  if (time === null) throw new ReadFailure({ kind: "time-not-exact", partName: null, barLabel: bar.label });
  return time;
}

function finishParts(drafts: readonly PartDraft[]): Part[] {
  const roles = guessRoles(
    drafts.map(({ identity, staffCount, hasLyrics }) => ({ ...identity, staffCount, hasLyrics })),
  );
  return drafts.map((draft, index) => finishPart(draft, roles[index] ?? "other"));
}

function finishPart(draft: Draft<PartDraft>, role: PartRole): Part {
  const { identity, staffCount, clefs, keys, transpositions } = draft;
  const directions: readonly Direction[] = draft.directions;
  return {
    ...identity,
    role,
    staffCount,
    notes: draft.notes.flat(),
    rests: draft.rests.flat(),
    directions,
    clefs,
    keys,
    transpositions,
  };
}
