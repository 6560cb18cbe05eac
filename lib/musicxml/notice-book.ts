import type { Notice } from "@/lib/score/notice";
import { readLimits } from "./limits";

/** Collects what was imperfect. The same thing in the same bar is told once, and a broken file tells no more than a page. */
export class NoticeBook {
  private readonly told = new Map<string, Notice>();
  private untold = 0;
  private last: Notice | null = null;

  add(kind: string, sentence: string, partName: string | null = null, barLabel: string | null = null): void {
    const last = this.last;
    // A fault often comes in rows, and the key costs more than the look.
    if (last && last.sentence === sentence && last.barLabel === barLabel && last.partName === partName)
      return;
    this.last = { kind, sentence, partName, barLabel };
    const key = `${kind}\n${partName}\n${barLabel}\n${sentence}`;
    if (this.told.has(key)) return;
    if (this.told.size >= readLimits.notices) this.untold += 1;
    else this.told.set(key, { kind, sentence, partName, barLabel });
  }

  addAll(notices: readonly Notice[]): void {
    for (const { kind, sentence, partName, barLabel } of notices)
      this.add(kind, sentence, partName, barLabel);
  }

  list(): Notice[] {
    const notices = [...this.told.values()];
    if (this.untold === 0) return notices;
    const sentence = `${this.untold} more places in this file were imperfect.`;
    return [...notices, { kind: "more-notices", sentence, partName: null, barLabel: null }];
  }
}
