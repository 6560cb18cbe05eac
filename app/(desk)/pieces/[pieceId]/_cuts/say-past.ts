import type { Desk } from "@/app/_data/desk/desk";
import { namePlace, nameSpan } from "@/app/_ui/name-span";
import type { RoomChange } from "@/lib/room/history/room-change";
import { firstName, personOf } from "../_components/person";

/** One change of one record, in words for those who have the record before them. */
export interface PastWords {
  /** "reworded by Nerys". */
  readonly words: string;
  /** What a comment said before; null when its words did not change. */
  readonly former: string | null;
}

/** @param previous the change of the same record before this one. */
export function sayPast(
  change: RoomChange,
  previous: RoomChange | null,
  desk: Pick<Desk, "people" | "me" | "bars">,
): PastWords {
  const by = sayBy(change.userId, desk);
  const { deed, former = null } = sayDeed(change, previous, desk);
  const overtaken = change.isOvertaken ? ", at the same time as what stands" : "";
  return { words: `${deed}${by}${overtaken}`, former };
}

function sayBy(userId: string | null, desk: Pick<Desk, "people" | "me">): string {
  if (userId === null) return " when the room began anew";
  return userId === desk.me.userId ? " by you" : ` by ${firstName(personOf(desk, userId))}`;
}

interface Deed {
  readonly deed: string;
  readonly former?: string;
}

function sayDeed(change: RoomChange, previous: RoomChange | null, { bars }: Pick<Desk, "bars">): Deed {
  switch (change.map) {
    case "comments":
      return sayComment(change.before, change.after);
    case "resolutions":
      return { deed: change.after?.isResolved ? "resolved" : "opened again" };
    case "breaths":
      return { deed: sayBreath(change, bars) };
    case "cues":
      return sayCue(change, bars);
    case "pencilledCuts":
      return { deed: sayPencil(change, previous?.map === "pencilledCuts" ? previous : null, bars) };
  }
}

type ChangeOf<Name extends RoomChange["map"]> = Extract<RoomChange, { map: Name }>;

function sayComment(before: ChangeOf<"comments">["before"], after: ChangeOf<"comments">["after"]): Deed {
  if (after === null) return { deed: "lost" };
  if (before === null) return { deed: "written" };
  if (before.text !== after.text) return { deed: "reworded", former: before.text };
  if (before.deletedAt === null && after.deletedAt !== null) return { deed: "deleted" };
  if (before.deletedAt !== null && after.deletedAt === null) return { deed: "brought back" };
  if (before.print !== after.print)
    return { deed: after.print ? "marked to be printed" : "no longer to be printed" };
  return { deed: "written again" };
}

function sayCue({ before, after }: ChangeOf<"cues">, bars: Desk["bars"]): Deed {
  if (after === null) return { deed: "lost" };
  if (after.deletedAt !== null) return { deed: "taken off" };
  if (before === null) return { deed: `“${after.text}” written over ${namePlace(bars, after.at)}` };
  if (before.deletedAt !== null) return { deed: "brought back" };
  if (before.text !== after.text) return { deed: `reworded to “${after.text}”`, former: before.text };
  return { deed: `moved to ${namePlace(bars, after.at)}` };
}

function sayBreath({ before, after }: ChangeOf<"breaths">, bars: Desk["bars"]): string {
  if (after === null) return "lost";
  if (after.deletedAt !== null) return "taken away";
  if (before === null) return `marked at ${namePlace(bars, after.at)}`;
  return before.deletedAt === null ? `moved to ${namePlace(bars, after.at)}` : "brought back";
}

function sayPencil(
  { after }: ChangeOf<"pencilledCuts">,
  previous: ChangeOf<"pencilledCuts"> | null,
  bars: Desk["bars"],
): string {
  if (after === null) return "lost";
  const name = nameSpan(bars, after.from, after.to);
  if (after.isRubbedOut) return "rubbed out";
  if (after.over.length === 0) return `pencilled in, ${name},`;
  if (after.over.length > 1) return `settled on ${name}`;
  return previous?.after?.isRubbedOut ? `brought back, ${name},` : `moved to ${name}`;
}
