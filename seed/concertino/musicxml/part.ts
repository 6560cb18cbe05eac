import type { BarPlan, PlacedDynamic } from "../compose";
import { type Event, type Line, QUARTER, transposeLine, withOnsets } from "../event";
import type { Instrument } from "../instruments";
import { type Interval, isSamePitch } from "../pitch";
import { AccidentalPlanner } from "./accidentals";
import { planBeams } from "./beams";
import { markDirection, type PlacedDirection, type PlacedMark, systemDirections } from "./directions";
import { dynamicsForPart } from "./dynamics";
import { type Element, element } from "./element";
import { noteElements } from "./note";

/** A staff: one line of events, and a second voice in the bars that have one. */
export interface StaffContent {
  readonly clef: Instrument["clef"];
  readonly tenorClefBars?: readonly number[];
  readonly first: Line;
  readonly second?: readonly (readonly Event[] | undefined)[];
}

/** A part as the writer takes it, in sounding pitch. */
export interface PartContent {
  readonly id: string;
  readonly name: string;
  readonly abbreviation: string;
  readonly sound: string;
  readonly program: number;
  readonly writtenAbove: Interval;
  readonly staves: readonly StaffContent[];
  /** Bars with an orchestral dynamics plan; the soloist has his own marks. */
  readonly dynamics: readonly PlacedDynamic[];
}

/** A part as a `<part>` element. Rehearsal letters and tempi go to the part that `isFirst`. */
export function partElement(part: PartContent, bars: readonly BarPlan[], isFirst: boolean): Element {
  const staves = part.staves.map((staff) => ({
    ...staff,
    first: transposeLine(staff.first, part.writtenAbove),
    second: staff.second?.map((bar) => bar && transposeLine([bar], part.writtenAbove)[0]),
    planner: new AccidentalPlanner(),
  }));
  const top = part.staves[0];
  const marks = dynamicsForPart(bars, top?.first ?? [], part.dynamics);
  const measures = bars.map((plan, bar) =>
    element(
      "measure",
      { number: plan.label, implicit: plan.ticks < 4 * QUARTER ? "yes" : undefined },
      leftBarline(plan),
      attributes(part, bars, bar),
      staves.flatMap((staff, s) => staffElements(staff, s, part, bars, bar, isFirst, marks[bar] ?? [])),
      rightBarline(plan),
    ),
  );
  return element("part", { id: part.id }, measures);
}

interface WrittenStaff extends StaffContent {
  readonly planner: AccidentalPlanner;
}

function staffElements(
  staff: WrittenStaff,
  s: number,
  part: PartContent,
  bars: readonly BarPlan[],
  bar: number,
  isFirst: boolean,
  marks: readonly PlacedMark[],
): Element[] {
  const plan = bars[bar];
  if (!plan) return [];
  const voices = [staff.first[bar] ?? [], ...(staff.second?.[bar] ? [staff.second[bar]] : [])];
  const accidentals = staff.planner.planBar(voices, plan.fifths + keyShift(part.writtenAbove));
  const staffNumber = part.staves.length > 1 ? s + 1 : undefined;
  const directions: PlacedDirection[] = [
    ...(isFirst && s === 0 ? systemDirections(plan) : []),
    ...(s === 0 ? marks.map((mark) => markDirection(mark, staffNumber)) : []),
  ];
  return voices.flatMap((events, v) => {
    const lines = v === 0 ? staff.first : staff.second;
    const voice = s * 4 + v + 1;
    const written = voiceElements(events, {
      voice,
      staffNumber,
      directions: v === 0 ? directions : [],
      accidentals: accidentals[v] ?? [],
      before: lines?.[bar - 1]?.at(-1),
      after: lines?.[bar + 1]?.[0],
    });
    const needsBackup = s + v > 0;
    return needsBackup ? [element("backup", {}, element("duration", {}, plan.ticks)), ...written] : written;
  });
}

interface VoiceContext {
  readonly voice: number;
  readonly staffNumber: number | undefined;
  readonly directions: readonly PlacedDirection[];
  readonly accidentals: ReturnType<AccidentalPlanner["planBar"]>[number];
  readonly before: Event | undefined;
  readonly after: Event | undefined;
}

function voiceElements(events: readonly Event[], context: VoiceContext): Element[] {
  const beams = planBeams(events);
  const tuplets = planTuplets(events);
  return withOnsets(events).flatMap(({ event, onset }, i) => {
    const before = events[i - 1] ?? context.before;
    const after = events[i + 1] ?? context.after;
    const own = event.marks.map((mark) => markDirection({ tick: onset, mark }, context.staffNumber));
    const here = context.directions.filter(({ tick }) => tick >= onset && tick < onset + event.ticks);
    return [
      ...[...here, ...own].map(({ tick, make }) => make(tick - onset)),
      ...noteElements(event, {
        voice: context.voice,
        staff: context.staffNumber,
        beams: beams[i] ?? [],
        accidentals: context.accidentals[i] ?? [],
        tuplet: tuplets[i],
        tiedFrom: event.pitches.map((pitch) => Boolean(before?.tied && hasPitch(before, pitch))),
        tiedTo: event.pitches.map((pitch) => Boolean(event.tied && after && hasPitch(after, pitch))),
        slurNumber: context.voice,
      }),
    ];
  });
}

function hasPitch(event: Event, pitch: Event["pitches"][number]): boolean {
  return event.pitches.some((other) => isSamePitch(other, pitch));
}

/** Triplets are bracketed beat by beat. */
function planTuplets(events: readonly Event[]): ("start" | "stop" | undefined)[] {
  return withOnsets(events).map(({ event, onset }) => {
    if (!event.value.triplet) return undefined;
    if (onset % QUARTER === 0) return "start";
    return (onset + event.ticks) % QUARTER === 0 ? "stop" : undefined;
  });
}

/** How far a transposition moves the key signature along the circle of fifths. */
export function keyShift({ diatonic, chromatic }: Interval): number {
  return 7 * chromatic - 12 * diatonic;
}

function attributes(part: PartContent, bars: readonly BarPlan[], bar: number): Element | undefined {
  const plan = bars[bar];
  const before = bars[bar - 1];
  if (!plan) return undefined;
  const key = element(
    "key",
    {},
    element("fifths", {}, plan.fifths + keyShift(part.writtenAbove)),
    element("mode", {}, plan.mode),
  );
  if (before) {
    const changes = [before.fifths === plan.fifths ? undefined : key, clefChange(part, bar)];
    return changes.some(Boolean) ? element("attributes", {}, changes) : undefined;
  }
  const several = part.staves.length > 1;
  return element(
    "attributes",
    {},
    element("divisions", {}, QUARTER),
    key,
    element("time", {}, element("beats", {}, 4), element("beat-type", {}, 4)),
    several ? element("staves", {}, part.staves.length) : undefined,
    part.staves.map(({ clef }, s) => clefElement(clef, several ? s + 1 : undefined)),
    transposeElement(part.writtenAbove),
  );
}

/** Only single-staff parts change their clef. */
function clefChange({ staves }: PartContent, bar: number): Element | undefined {
  const [staff] = staves;
  if (!staff?.tenorClefBars || staves.length > 1) return undefined;
  const isTenor = staff.tenorClefBars.includes(bar);
  if (isTenor === staff.tenorClefBars.includes(bar - 1)) return undefined;
  return clefElement(isTenor ? { sign: "C", line: 4 } : staff.clef, undefined);
}

function clefElement({ sign, line }: Instrument["clef"], number: number | undefined): Element {
  return element("clef", { number }, element("sign", {}, sign), element("line", {}, line));
}

function transposeElement({ diatonic, chromatic }: Interval): Element | undefined {
  if (chromatic === 0) return undefined;
  const octaves = chromatic % 12 === 0 ? chromatic / 12 : 0;
  return element(
    "transpose",
    {},
    element("diatonic", {}, octaves ? 0 : -diatonic),
    element("chromatic", {}, octaves ? 0 : -chromatic),
    octaves ? element("octave-change", {}, -octaves) : undefined,
  );
}

function leftBarline({ repeat, ending }: BarPlan): Element | undefined {
  if (repeat !== "start" && !ending) return undefined;
  return element(
    "barline",
    { location: "left" },
    repeat === "start" ? element("bar-style", {}, "heavy-light") : undefined,
    ending ? element("ending", { number: ending, type: "start" }, `${ending}.`) : undefined,
    repeat === "start" ? element("repeat", { direction: "forward" }) : undefined,
  );
}

function rightBarline({ repeat, ending, closes }: BarPlan): Element | undefined {
  if (repeat !== "end" && !ending && !closes) return undefined;
  return element(
    "barline",
    { location: "right" },
    repeat === "end"
      ? element("bar-style", {}, "light-heavy")
      : closes
        ? element("bar-style", {}, closes)
        : undefined,
    ending ? element("ending", { number: ending, type: ending === 1 ? "stop" : "discontinue" }) : undefined,
    repeat === "end" ? element("repeat", { direction: "backward" }) : undefined,
  );
}
