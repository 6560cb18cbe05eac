import { child, childrenNamed, textOf, type XmlElement } from "../xml-tree";
import { setText } from "./even-divisions";
import { type Mending, removeChild } from "./mending";
import { eventsInTime, isChordMember, isGrace, isNote, isRest, type PartEvent, voiceOf } from "./part-events";

interface Syllable {
  readonly syllabic: XmlElement;
  readonly span: number | undefined;
}

/** Where a cut divides a word, what is left of it carries no hyphen towards the cut. */
export function mendLyrics(mending: Mending): void {
  const lines = new Map<string, Syllable[]>();
  for (const event of eventsInTime(mending.music)) {
    if (!isNote(event)) continue;
    for (const lyric of childrenNamed(event.node, "lyric")) {
      const syllabic = child(lyric, "syllabic");
      if (!syllabic) continue;
      const key = `${voiceOf(event)} ${lyric.attributes.number ?? lyric.attributes.name ?? ""}`;
      const line = lines.get(key) ?? [];
      line.push({ syllabic, span: mending.placeOf(event)?.span });
      lines.set(key, line);
    }
  }
  for (const line of lines.values()) mendLine(line);
  mendExtenders(mending);
}

/** The line under a syllable that is held over further notes goes when those are cut. */
function mendExtenders(mending: Mending): void {
  const voices = new Map<string, PartEvent[]>();
  for (const event of eventsInTime(mending.music)) {
    if (!isNote(event) || isRest(event) || isGrace(event) || isChordMember(event)) continue;
    const own = voices.get(voiceOf(event));
    if (own) own.push(event);
    else voices.set(voiceOf(event), [event]);
  }
  for (const events of voices.values()) {
    for (const [index, event] of events.entries()) {
      const next = events[index + 1];
      const isKept = next && mending.placeOf(next)?.span === mending.placeOf(event)?.span;
      if (isKept || !next) continue;
      for (const lyric of childrenNamed(event.node, "lyric"))
        for (const line of childrenNamed(lyric, "extend")) if (child(lyric, "text")) removeChild(lyric, line);
    }
  }
}

function mendLine(line: readonly Syllable[]): void {
  const written = line.map(({ syllabic }) => textOf(syllabic).trim());
  for (const [index, { syllabic, span }] of line.entries()) {
    const next = line[index + 1];
    if (!next || next.span === span || !/^(begin|middle)$/.test(written[index] ?? "")) continue;
    if (span !== undefined) setText(syllabic, textOf(syllabic).trim() === "begin" ? "single" : "end");
    if (next.span === undefined) continue;
    if (written[index + 1] === "middle") setText(next.syllabic, "begin");
    else if (written[index + 1] === "end") setText(next.syllabic, "single");
  }
}
