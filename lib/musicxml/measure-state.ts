import { compareQuarters, laterOf, noQuarters, type Quarters, quarters } from "@/lib/score/quarters";
import { clippedSentence, clipText } from "./clip-text";
import { addTime } from "./exact-time";
import type { NoticeBook } from "./notice-book";
import type { PartState } from "./part-state";
import { ReadFailure } from "./read-failure";
import type { BarDraft, PartDraft, ScoreDraft } from "./score-draft";
import { child, textOf, type XmlElement } from "./xml-tree";

/** More staves than any part has. */
const mostStaves = 32;

/** Where reading stands inside one measure of one part. Times count from the start of the bar. */
export class MeasureState {
  /** Where the next note goes. */
  at: Quarters = noQuarters;
  /** Onset of the note that a `chord` joins; null at the start of the measure and after a rest. */
  chordOnset: Quarters | null = null;
  /** The furthest time reached by anything but the bar's own rest. */
  reached: Quarters = noQuarters;
  readonly label: string | null;
  private voiceCounts: ReadonlyMap<string, number> | null = null;

  constructor(
    readonly score: ScoreDraft,
    readonly part: PartState,
    readonly bar: BarDraft,
    readonly barIndex: number,
    private readonly measure: XmlElement,
    private readonly notices: NoticeBook,
  ) {
    this.label = bar.label;
  }

  get draft(): PartDraft {
    return this.part.draft;
  }

  tell(kind: string, sentence: string): void {
    this.notices.add(kind, sentence, this.draft.identity.name, this.label);
  }

  /** A text of the file for the model. */
  clip(text: string): string {
    return clipText(text, () => this.tell("text-cut", clippedSentence));
  }

  /** `counts` is false for time that must not lengthen the bar. */
  advance(by: Quarters, counts = true): void {
    this.at = this.plus(this.at, by);
    if (counts) this.reached = laterOf(this.reached, this.at);
  }

  goBack(by: Quarters): void {
    const target = this.plus(this.at, quarters(-by.num, by.den));
    const isBeforeBar = compareQuarters(target, noQuarters) < 0;
    if (isBeforeBar)
      this.tell("backup-too-far", "A backup led to before the bar; the bar's start was taken.");
    this.at = isBeforeBar ? noQuarters : target;
  }

  /** The exact sum; the piece cannot be read when it is none. */
  plus(a: Quarters, b: Quarters): Quarters {
    const sum = addTime(a, b);
    if (sum === null) {
      const partName = this.draft.identity.name;
      throw new ReadFailure({ kind: "time-not-exact", partName, barLabel: this.label });
    }
    return sum;
  }

  /** Whether the measure holds no more than one note or rest of the voice. */
  isAlone(voice: string): boolean {
    this.voiceCounts ??= countVoices(this.measure);
    return (this.voiceCounts.get(voice) ?? 0) <= 1;
  }

  /** A staff number of the file; null when it gives none. A staff that the part did not announce is added to it. */
  staffOf(text: string | null): number | null {
    if (text === null) return null;
    const staff = Number(text);
    if (!Number.isInteger(staff) || staff < 1 || staff > mostStaves) {
      this.tell("staff-unknown", "Something is meant for a staff that cannot be; the first staff was taken.");
      return 1;
    }
    if (staff > this.draft.staffCount) this.draft.staffCount = staff;
    return staff;
  }
}

function countVoices(measure: XmlElement): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const node of measure.children) {
    if (node.kind !== "element" || node.name !== "note") continue;
    const voice = textOf(child(node, "voice")).trim() || "1";
    counts.set(voice, (counts.get(voice) ?? 0) + 1);
  }
  return counts;
}
