import type { Notice } from "@/lib/score/notice";
import { isEqualQuarters } from "@/lib/score/quarters";
import { child } from "../xml-tree";
import { hasBarRepeat } from "./mend-measure-styles";
import type { Mending } from "./mending";
import { isNote, type PartEvent } from "./part-events";

/** What a cut leaves that the players should look at. */
export function findCutNotices(mending: Mending, partName: string | null): Notice[] {
  return mending.spans.flatMap((span, index) => {
    const bar = mending.music.bars[span.from.barIndex];
    if (!bar || index === 0) return [];
    const barLabel = bar.measure.attributes.number ?? null;
    const notices: Notice[] = [];
    if (bar.events.some((event) => isStruckAgain(mending, event, index))) {
      const sentence = "A note that is held across the cut is struck again where the music goes on.";
      notices.push({ kind: "note-struck-again", sentence, partName, barLabel });
    }
    if (hasBarRepeat(bar.measure) && !bar.events.some(isNote)) {
      const sentence = "This bar says only to repeat the bar before it, and that bar is cut: write it out.";
      notices.push({ kind: "repeated-bar-cut", sentence, partName, barLabel });
    }
    return notices;
  });
}

function isStruckAgain(mending: Mending, event: PartEvent, span: number): boolean {
  const place = mending.placeOf(event);
  return place?.span === span && !isEqualQuarters(place.at, event.at) && child(event.node, "pitch") !== null;
}
