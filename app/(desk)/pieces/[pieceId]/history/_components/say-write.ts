import type { HistoryDesk } from "@/app/_data/desk/read-history";
import { namePlace, nameSpan } from "@/app/_ui/name-span";
import type { LeftToOther } from "@/lib/room/history/find-restoration";
import type { RoomRecordsAt } from "@/lib/room/history/room-records-at";
import type { RoomMapName } from "@/lib/room/room-keys";
import type { RoomWrite } from "@/lib/room/room-write";
import { firstName, personOf } from "../../_components/person";

/** What one writing of a restoration does, in words: "Your comment on bars 9–12 says again “…”." */
export function sayWrite(
  write: RoomWrite,
  { bars, cuts }: Pick<HistoryDesk, "bars" | "cuts">,
  then: RoomRecordsAt,
): string {
  switch (write.map) {
    case "comments": {
      const { about, deletedAt, text } = write.record;
      const number =
        about.kind === "proposal" ? cuts.find(({ id }) => id === about.proposalId)?.number : null;
      const where =
        about.kind === "span" ? nameSpan(bars, about.from, about.to) : `cut ${number ?? "that is gone"}`;
      return deletedAt === null
        ? `Your comment on ${where} stands and says “${shorten(text)}”`
        : `Your comment on ${where} is deleted: “${shorten(text)}”`;
    }
    case "resolutions": {
      const text = then.comments.find(({ id }) => id === write.key)?.text;
      const which = text === undefined ? "A comment of later" : `The comment “${shorten(text)}”`;
      return `${which} is ${write.record.isResolved ? "resolved" : "open again"}, in your name`;
    }
    case "breaths": {
      const place = namePlace(bars, write.record.at);
      return write.record.deletedAt === null
        ? `Your breath stands at ${place}`
        : `Your breath at ${place} is taken away`;
    }
    case "cues": {
      const { at, text, deletedAt } = write.record;
      const place = namePlace(bars, at);
      return deletedAt === null
        ? `Your cue “${text}” stands over ${place}`
        : `Your cue “${text}” over ${place} is taken off`;
    }
    case "pencilledCuts": {
      const name = nameSpan(bars, write.record.from, write.record.to);
      return write.record.isRubbedOut
        ? `The pencilled cut ${name} is rubbed out`
        : `The pencilled cut stands at ${name}`;
    }
  }
}

const nouns: Readonly<Record<RoomMapName, readonly [string, string]>> = {
  comments: ["comment", "comments"],
  resolutions: ["resolved mark", "resolved marks"],
  breaths: ["breath", "breaths"],
  pencilledCuts: ["pencilled cut", "pencilled cuts"],
  cues: ["cue", "cues"],
};

/** One sentence for each person whose things this member cannot change: "2 comments and 1 breath of Matthis’s: …" */
export function sayLeftToOthers(left: readonly LeftToOther[], desk: Pick<HistoryDesk, "people">): string[] {
  const people = [...new Set(left.map(({ userId }) => userId))];
  return people.map((userId) => {
    const theirs = left.filter((one) => one.userId === userId);
    const counts = Object.entries(nouns).flatMap(([map, [one, many]]) => {
      const count = theirs.filter((each) => each.map === map).length;
      return count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
    });
    const name = firstName(personOf(desk, userId));
    const what = new Intl.ListFormat("en", { type: "conjunction" }).format(counts);
    return `${what} of ${name}’s: only ${name} can bring ${theirs.length === 1 ? "it" : "them"} back`;
  });
}

function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 58)}…` : text;
}
