import { compareQuarters } from "@/lib/score/quarters";
import { childElements, childrenNamed, type XmlElement } from "../xml-tree";
import { isNote, type PartEvent, type PartMusic, staffOf, voiceOf } from "./part-events";

/** One end, or a point on the way, of something that spans notes. */
export interface SpannerMark {
  readonly event: PartEvent;
  /** The `slur`, `wedge`… element. */
  readonly mark: XmlElement;
  /** The element that holds it. */
  readonly holder: XmlElement;
}

/** A slur, hairpin, octave line… in the source, with both its ends. Those with one end are left as they are. */
export interface Spanner {
  /** MusicXML element name. */
  readonly name: string;
  readonly onNotes: boolean;
  readonly start: SpannerMark;
  readonly stop: SpannerMark;
  readonly between: readonly SpannerMark[];
}

const noteSpanners = new Set(["slur", "glissando", "slide", "tuplet", "wavy-line", "tremolo"]);
const playingTechniques = new Set(["hammer-on", "pull-off"]);
const directionSpanners = new Set(["wedge", "octave-shift", "pedal", "dashes", "bracket", "principal-voice"]);
const stopTypes = new Set(["stop"]);
const betweenTypes = new Set(["continue", "change", "discontinue", "resume"]);
/** Types of marks of these names that span nothing. */
const pointTypes = new Set(["single", "unmeasured", ""]);

/**
 * Pairs the ends of everything that spans notes in a part, in document order by name and number, as MusicXML 4.0
 * (`number-level`) has it. A stop that stands before its start in the same bar (another voice was written first) is
 * paired too.
 */
export function findSpanners(music: PartMusic): Spanner[] {
  const found: Spanner[] = [];
  const open = new Map<string, { start: SpannerMark; between: SpannerMark[] }[]>();
  let early = new Map<string, SpannerMark>();
  let bar = -1;
  for (const mark of music.bars.flatMap((each) => each.events.flatMap(readMarks))) {
    if (mark.event.barIndex !== bar) early = new Map();
    bar = mark.event.barIndex;
    const key = pairingKey(mark);
    const type = mark.mark.attributes.type ?? "";
    const waiting = open.get(key) ?? [];
    if (stopTypes.has(type)) {
      const started = takeStart(waiting, mark);
      if (started) found.push(toSpanner(started, mark));
      else early.set(key, mark);
    } else if (betweenTypes.has(type)) waiting.at(-1)?.between.push(mark);
    else {
      const stop = early.get(key);
      early.delete(key);
      if (stop && isLater(stop, mark)) found.push(toSpanner({ start: mark, between: [] }, stop));
      else open.set(key, [...waiting, { start: mark, between: [] }]);
    }
  }
  return found;
}

/**
 * The start that a stop ends: one on the same staff rather than another, the latest rather than an earlier, and never
 * a slur that begins on the very note (files write the two ends on a note in either order).
 */
function takeStart<T extends { start: SpannerMark }>(waiting: T[], stop: SpannerMark): T | null {
  const staff = staffOf(stop.event.node);
  const isFit = ({ start }: T) => stop.mark.name !== "slur" || start.event !== stop.event;
  const same = waiting.findLastIndex((each) => isFit(each) && staffOf(each.start.event.node) === staff);
  const index = same === -1 ? waiting.findLastIndex(isFit) : same;
  return index === -1 ? null : (waiting.splice(index, 1)[0] ?? null);
}

function toSpanner(started: { start: SpannerMark; between: SpannerMark[] }, stop: SpannerMark): Spanner {
  const { name } = stop.mark;
  return { name, onNotes: isNote(stop.event), start: started.start, stop, between: started.between };
}

const isLater = (a: SpannerMark, b: SpannerMark): boolean => compareQuarters(a.event.at, b.event.at) > 0;

function pairingKey({ event, mark }: SpannerMark): string {
  // Tuplets and tremolos run inside a voice, and many files give all of them the same number or none.
  const voice = mark.name === "tuplet" || mark.name === "tremolo" ? voiceOf(event) : "";
  return `${mark.name} ${mark.attributes.number ?? "1"} ${voice}`;
}

/** The marks that an event carries. */
function readMarks(event: PartEvent): SpannerMark[] {
  if (event.node.name === "direction") {
    return childrenNamed(event.node, "direction-type").flatMap((holder) =>
      childElements(holder)
        .filter((mark) => directionSpanners.has(mark.name))
        .map((mark) => ({ event, mark, holder })),
    );
  }
  if (!isNote(event)) return [];
  return childrenNamed(event.node, "notations").flatMap((notations) =>
    [notations, ...childrenNamed(notations, "ornaments"), ...childrenNamed(notations, "technical")].flatMap(
      (holder) =>
        childElements(holder)
          .filter(isNoteSpanner)
          .map((mark) => ({ event, mark, holder })),
    ),
  );
}

function isNoteSpanner(mark: XmlElement): boolean {
  if (playingTechniques.has(mark.name)) return true;
  return noteSpanners.has(mark.name) && !pointTypes.has(mark.attributes.type ?? "");
}
