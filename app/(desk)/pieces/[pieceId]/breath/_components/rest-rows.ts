import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import type { BreathNeed } from "@/app/_data/desk/read-breath";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import type { FoundRest } from "@/lib/breath/find-rests";
import { comparePositions } from "@/lib/score/position";
import type { BreathAnswer } from "@/lib/study/breathe";
import { spanOfCut } from "./breath-question";
import { type EntryName, nameEntry } from "./name-entry";

/** A noted need with what is left for it. */
export interface NeedHere {
  readonly need: BreathNeed;
  readonly checked: CheckedNeed;
  /** With the open proposals made as well; null where they change nothing. */
  readonly underOpen: CheckedNeed | null;
}

/** The rest before one entry. */
export interface RestRow {
  readonly key: string;
  readonly entry: EntryName;
  readonly rest: FoundRest;
  /** What the open proposals would leave, in seconds; null where they change nothing. */
  readonly openSeconds: number | null;
  /** Cuts that take something of it, agreed before open. */
  readonly takenBy: readonly DeskCut[];
  readonly needs: readonly NeedHere[];
}

interface Laid {
  readonly desk: Pick<Desk, "strip" | "bars">;
  readonly needs: readonly BreathNeed[];
  /** With the cuts that are made. */
  readonly made: Pick<BreathAnswer, "rests" | "needs">;
  readonly madeCuts: readonly DeskCut[];
  /** With the open proposals made as well; null when there is none, or one of them is made already. */
  readonly open: Pick<BreathAnswer, "rests" | "needs"> | null;
  readonly openCuts: readonly DeskCut[];
}

const isOther = (a: number, b: number) => Math.abs(a - b) >= 0.0005;

/** The rest before each entry of the soloist, in performed order; the silence after the last note has none. */
export function layRestRows(laid: Laid): RestRow[] {
  const { desk, made, open } = laid;
  return made.rests.flatMap((rest, index): RestRow[] => {
    if (rest.nextNoteId === null) return [];
    const other = open?.rests[index];
    const openSeconds =
      other && isOther(other.seconds.after, rest.seconds.after) ? other.seconds.after : null;
    const isTaken = isOther(rest.seconds.before, rest.seconds.after);
    return [
      {
        ...{ key: `${index} ${rest.nextNoteId}`, entry: nameEntry(desk, rest.to), rest, openSeconds },
        takenBy: [
          ...(isTaken ? touching(rest, laid.madeCuts) : []),
          ...(openSeconds !== null ? touching(rest, laid.openCuts) : []),
        ],
        needs: needsOf(laid, rest),
      },
    ];
  });
}

function touching(rest: FoundRest, cuts: readonly DeskCut[]): DeskCut[] {
  return cuts.filter((cut) => {
    const { from, to } = spanOfCut(cut);
    return comparePositions(from, rest.to) < 0 && comparePositions(to, rest.from) > 0;
  });
}

function needsOf({ needs, made, open }: Laid, rest: FoundRest): NeedHere[] {
  return needs.flatMap((need): NeedHere[] => {
    const checked = made.needs.find((one) => one.need.id === need.id);
    if (!checked || checked.evidence.before?.nextNoteId !== rest.nextNoteId) return [];
    const other = open?.needs.find((one) => one.need.id === need.id) ?? null;
    const isChanged = other !== null && isOther(other.seconds.after, checked.seconds.after);
    return [{ need, checked, underOpen: isChanged ? other : null }];
  });
}

/** Needs that stand before none of the rows: those that lie in no rest that is listed, are taken off, or stale. */
export function looseNeeds(needs: readonly BreathNeed[], rows: readonly RestRow[]): BreathNeed[] {
  const placed = new Set(rows.flatMap((row) => row.needs.map(({ need }) => need.id)));
  return needs.filter(({ id }) => !placed.has(id));
}

/** The row that loses most, and how much of its rest, in seconds; null when none loses a second. */
export function mostLost(rows: readonly RestRow[]): { row: RestRow; seconds: number } | null {
  let most: { row: RestRow; seconds: number } | null = null;
  for (const row of rows) {
    const seconds = row.rest.seconds.before - (row.openSeconds ?? row.rest.seconds.after);
    if (seconds >= 1 && seconds > (most?.seconds ?? 0)) most = { row, seconds };
  }
  return most;
}
