import type { Bar, Metre } from "@/lib/score/bar";
import { type Quarters, quarters, scaleQuarters } from "@/lib/score/quarters";

/** How a metre is felt. */
export interface Beats {
  /** One beat: a dotted value in compound metres. */
  readonly beat: Quarters;
  /** Where no syncopation may be written across: half of a bar of four beats; null in other metres. */
  readonly middle: Quarters | null;
}

/** Common practice: 6/8, 9/8 and 12/8 (and 3/8) have dotted beats, every other metre those that it names. */
export function beatsOf({ metre, length }: Pick<Bar, "metre" | "length">): Beats {
  const [group] = metre.groups;
  if (!group || metre.groups.length > 1) return { beat: quarters(1), middle: null };
  const count = countOf(group);
  const unit = quarters(4, group.beatType);
  const isCompound = group.beatType >= 8 && count % 3 === 0;
  const beat = isCompound ? scaleQuarters(unit, 3) : unit;
  const beatCount = isCompound ? count / 3 : count;
  return { beat, middle: beatCount === 4 ? scaleQuarters(length, 1, 2) : null };
}

const countOf = ({ beats }: Metre["groups"][number]): number => beats.reduce((sum, each) => sum + each, 0);
