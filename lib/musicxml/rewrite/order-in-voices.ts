import { compareQuarters } from "@/lib/score/quarters";
import { isOpening, isRightBarline } from "../cut/measure-parts";
import { isNote, type PartEvent, staffOf, voiceOf } from "../cut/part-events";

/**
 * The events of a rewritten bar in the order in which a measure is written: voice by voice, each in time. What is no
 * note goes with the voice that it stood in, or with the first when that is gone; bar lines stay at the edges.
 *
 * @param all of the bar as it was, in document order.
 * @param kept those of them that stay.
 * @param added notes that are new.
 */
export function orderInVoices(
  all: readonly PartEvent[],
  kept: readonly PartEvent[],
  added: readonly PartEvent[],
): PartEvent[] {
  const lineOf = linesOf(all);
  const notes = [...kept, ...added].filter(isNote);
  const names = [...new Set(notes.map(nameLine))].sort(byName);
  const [first = ""] = names;
  // How durations are counted is said before the first of them, whichever voice that is in.
  const isFirst = ({ node, at }: PartEvent) =>
    isOpening(node) || (node.name === "attributes" && at.num === 0);
  const isEdge = (event: PartEvent) => isFirst(event) || isRightBarline(event.node);
  const others = kept.filter((event) => !isNote(event) && !isEdge(event));
  const homeOf = (event: PartEvent) => {
    const wanted = lineOf.get(event) ?? "";
    return names.includes(wanted) ? wanted : first;
  };
  const inVoices = (names.length === 0 ? [""] : names).flatMap((name) =>
    [
      ...others.filter((event) => homeOf(event) === name),
      ...notes.filter((event) => nameLine(event) === name),
    ].toSorted(byTime),
  );
  return [...kept.filter(isFirst), ...inVoices, ...kept.filter(({ node }) => isRightBarline(node))];
}

const nameLine = (event: PartEvent): string => `${staffOf(event.node)} ${voiceOf(event)}`;

function byName(a: string, b: string): number {
  const [staffA, voiceA] = a.split(" ").map(Number);
  const [staffB, voiceB] = b.split(" ").map(Number);
  return (staffA ?? 0) - (staffB ?? 0) || (voiceA ?? 0) - (voiceB ?? 0);
}

/** The voice that each event which is no note stands in: that of the next note, or of the last when none follows. */
function linesOf(all: readonly PartEvent[]): Map<PartEvent, string> {
  const lines = new Map<PartEvent, string>();
  let waiting: PartEvent[] = [];
  let last = "";
  for (const event of all) {
    if (!isNote(event)) {
      waiting.push(event);
      continue;
    }
    const line = nameLine(event);
    for (const each of waiting) {
      const isPast = last !== "" && compareQuarters(each.at, event.at) > 0;
      lines.set(each, isPast ? last : line);
    }
    waiting = [];
    last = line;
  }
  for (const each of waiting) lines.set(each, last);
  return lines;
}

/** Chord members stay behind the note that they belong to: a stable sort. */
function byTime(a: PartEvent, b: PartEvent): number {
  return compareQuarters(a.at, b.at) || Number(isNote(a)) - Number(isNote(b));
}
