import type { Event } from "../event";
import type { Pitch } from "../pitch";
import type { PrintedAccidental } from "./accidentals";
import type { BeamState } from "./beams";
import { type Element, element } from "./element";

/** Everything about an event that only its surroundings decide. */
export interface NoteContext {
  readonly voice: number;
  /** Only in parts of several staves. */
  readonly staff: number | undefined;
  readonly beams: readonly BeamState[];
  readonly accidentals: readonly (PrintedAccidental | undefined)[];
  readonly tuplet: "start" | "stop" | undefined;
  /** Which pitches come tied from the event before, and which go on into the next. */
  readonly tiedFrom: readonly boolean[];
  readonly tiedTo: readonly boolean[];
  readonly slurNumber: number;
}

/** One event as `<note>` elements: its grace notes, then one per pitch; a hidden gap as `<forward>`. */
export function noteElements(event: Event, context: NoteContext): Element[] {
  if (event.hidden) return [forward(event.ticks, context)];
  const graces = event.graces.map((pitch) => graceNote(pitch, context));
  if (event.pitches.length === 0) return [...graces, restNote(event, context)];
  return [...graces, ...event.pitches.map((pitch, i) => pitchedNote(event, pitch, i, context))];
}

function forward(ticks: number, { voice, staff }: NoteContext): Element {
  return element(
    "forward",
    {},
    element("duration", {}, ticks),
    element("voice", {}, voice),
    staff === undefined ? undefined : element("staff", {}, staff),
  );
}

function graceNote(pitch: Pitch, { voice, staff }: NoteContext): Element {
  return element(
    "note",
    {},
    element("grace", { slash: "yes" }),
    pitchElement(pitch),
    element("voice", {}, voice),
    element("type", {}, "eighth"),
    staff === undefined ? undefined : element("staff", {}, staff),
  );
}

function restNote(event: Event, context: NoteContext): Element {
  return element(
    "note",
    {},
    element("rest", { measure: event.wholeBar ? "yes" : undefined }),
    element("duration", {}, event.ticks),
    element("voice", {}, context.voice),
    event.wholeBar ? undefined : valueElements(event),
    staffElement(context),
    notations(event, 0, context),
  );
}

function pitchedNote(event: Event, pitch: Pitch, i: number, context: NoteContext): Element {
  return element(
    "note",
    {},
    i > 0 ? element("chord") : undefined,
    pitchElement(pitch),
    element("duration", {}, event.ticks),
    context.tiedFrom[i] ? element("tie", { type: "stop" }) : undefined,
    context.tiedTo[i] ? element("tie", { type: "start" }) : undefined,
    element("voice", {}, context.voice),
    valueElements(event, context.accidentals[i]),
    staffElement(context),
    i > 0 ? undefined : context.beams.map((state, level) => element("beam", { number: level + 1 }, state)),
    notations(event, i, context),
  );
}

function staffElement({ staff }: NoteContext): Element | undefined {
  return staff === undefined ? undefined : element("staff", {}, staff);
}

function pitchElement({ step, alter, octave }: Pitch): Element {
  return element(
    "pitch",
    {},
    element("step", {}, step),
    alter === 0 ? undefined : element("alter", {}, alter),
    element("octave", {}, octave),
  );
}

function valueElements({ value }: Event, accidental?: PrintedAccidental): (Element | undefined)[] {
  return [
    element("type", {}, value.name),
    value.dots ? element("dot") : undefined,
    accidental
      ? element("accidental", { cautionary: accidental.courtesy ? "yes" : undefined }, accidental.sign)
      : undefined,
    value.triplet
      ? element("time-modification", {}, element("actual-notes", {}, 3), element("normal-notes", {}, 2))
      : undefined,
  ];
}

function notations(event: Event, i: number, context: NoteContext): Element | undefined {
  const isFirst = i === 0;
  const children = [
    context.tiedFrom[i] ? element("tied", { type: "stop" }) : undefined,
    context.tiedTo[i] ? element("tied", { type: "start" }) : undefined,
    isFirst && event.slurStop ? element("slur", { type: "stop", number: context.slurNumber }) : undefined,
    isFirst && event.slurStart ? element("slur", { type: "start", number: context.slurNumber }) : undefined,
    isFirst && context.tuplet ? element("tuplet", { type: context.tuplet, bracket: "no" }) : undefined,
    isFirst && event.trill ? element("ornaments", {}, element("trill-mark")) : undefined,
    isFirst && event.articulations.length > 0
      ? element(
          "articulations",
          {},
          event.articulations.map((name) => element(name)),
        )
      : undefined,
    isFirst && event.fermata ? element("fermata", { type: "upright" }) : undefined,
  ].filter((child) => child !== undefined);
  return children.length > 0 ? element("notations", {}, children) : undefined;
}
