import { BAR, barRest, type Event, eventAt, eventsFor, type Line, mapPitches } from "./event";
import { drawFigure, type Figure, isBroken, isFigure, restsFrom } from "./figures";
import { readHarmony, type Segment } from "./harmony";
import { DRUMS, INSTRUMENT_IDS, INSTRUMENTS, type InstrumentId } from "./instruments";
import { readLine } from "./notation";
import type { Phrase } from "./phrase";
import { midiOf, type Pitch, shiftOctaves } from "./pitch";
import { leadVoices, type VoiceRange, type VoicingFrame } from "./voicing";

/** The orchestra, every instrument through all bars, in sounding pitch. */
export type Orchestra = Readonly<Record<InstrumentId, Line>>;

/** What one instrument does in one bar of a phrase. */
type Task =
  | { readonly kind: "rest" }
  | { readonly kind: "drums" }
  | { readonly kind: "line"; readonly line: string; readonly octaves: number; readonly label: string }
  | { readonly kind: "figure"; readonly figure: Figure };

interface Material {
  readonly phrase: Phrase;
  readonly lines: Readonly<Record<string, Line>>;
  readonly segments: readonly Segment[];
  readonly tasks: Readonly<Record<InstrumentId, readonly Task[]>>;
}

/** What a pair of winds prints when one plays, or both play the same. */
export const PLAYERS_LABELS: readonly [string, string] = ["1.", "a 2"];

/** Instruments whose inner voices are led together, highest first. */
const INNER_STRINGS: readonly InstrumentId[] = ["vl1", "vl2", "vla"];

/**
 * Writes a phrase out for the orchestra.
 *
 * @returns for each instrument one list of events per bar of the phrase.
 * @throws RangeError where a text does not fill its bars or names a line that is not there.
 */
export function orchestrate(phrase: Phrase): Orchestra {
  const material = readMaterial(phrase);
  const figures = drawFigures(material);
  const entries = INSTRUMENT_IDS.map((id): [InstrumentId, Line] => {
    const bars = material.tasks[id].map((_, bar) => figures[id]?.[bar] ?? writtenBar(material, id, bar));
    return [
      id,
      bars.map((events) => (events.some((event) => event.pitches.length) ? events : silent(events))),
    ];
  });
  return Object.fromEntries(entries) as Record<InstrumentId, Line>;
}

function silent(events: readonly Event[]): Event[] {
  if (events.some((event) => event.fermata || event.marks.length > 0)) return [...events];
  return [barRest(events.reduce((sum, event) => sum + event.ticks, 0))];
}

function readMaterial(phrase: Phrase): Material {
  const barTicks = phrase.barTicks ?? BAR;
  const lines = Object.fromEntries(
    Object.entries(phrase.lines).map(([name, text]) => [name, readLine(text, () => barTicks)]),
  );
  for (const [name, line] of Object.entries(lines)) {
    if (line.length !== phrase.bars) {
      throw new RangeError(
        `Line "${name}" has ${line.length} bars, its phrase ${phrase.bars}: ${phrase.harmony}`,
      );
    }
  }
  const tasks = Object.fromEntries(
    INSTRUMENT_IDS.map((id) => [
      id,
      readTasks(phrase.score[id] ?? (id === "solo" ? "solo" : ""), phrase.bars),
    ]),
  ) as Record<InstrumentId, Task[]>;
  return { phrase, lines, segments: phrase.harmony ? readHarmony(phrase.harmony) : [], tasks };
}

function readTasks(text: string, bars: number): Task[] {
  const tasks = Array.from({ length: bars }, (): Task => ({ kind: "rest" }));
  for (const part of text.split(";").filter((piece) => piece.trim() !== "")) {
    const match = /^\s*(?:(\d+)(?:-(\d+))?\s+)?(\S+)\s*$/.exec(part);
    if (!match) throw new RangeError(`Not a task: "${part}"`);
    const from = match[1] ? Number(match[1]) : 1;
    const to = match[2] ? Number(match[2]) : match[1] ? from : bars;
    for (let bar = from; bar <= to; bar++) tasks[bar - 1] = readTask(match[3] ?? "");
  }
  return tasks;
}

function readTask(name: string): Task {
  if (name === "rest") return { kind: "rest" };
  if (name === "drums") return { kind: "drums" };
  if (isFigure(name)) return { kind: "figure", figure: name };
  const match = /^(1:|2:)?(\w+?)([+-]\d)?$/.exec(name);
  if (!match) throw new RangeError(`Not a task: "${name}"`);
  const [one, both] = PLAYERS_LABELS;
  const label = match[1] === "1:" ? one : match[1] === "2:" ? both : "";
  return { kind: "line", line: match[2] ?? "", octaves: Number(match[3] ?? 0), label };
}

function writtenBar(material: Material, id: InstrumentId, bar: number): readonly Event[] {
  const barTicks = material.phrase.barTicks ?? BAR;
  const task = material.tasks[id][bar];
  if (task?.kind === "drums") return drumBar(material, bar);
  if (task?.kind !== "line") return [barRest(barTicks)];
  const line = material.lines[task.line];
  if (!line && id === "solo") return [barRest(barTicks)];
  const written = line?.[bar];
  if (!written)
    throw new RangeError(`No line "${task.line}" for ${id} in bar ${bar + 1}: ${material.phrase.harmony}`);
  return labelled(placed(written, id, task.octaves), material, id, bar);
}

/** A line in another octave; where that leaves the instrument's range, the bar stays where it was. */
function placed(events: readonly Event[], id: InstrumentId, octaves: number): readonly Event[] {
  const [low, high] = INSTRUMENTS[id].range;
  const moved = mapPitches([events], (pitch) => shiftOctaves(pitch, octaves))[0] ?? [];
  const fits = moved.every(({ pitches }) => pitches.every((p) => midiOf(p) >= low && midiOf(p) <= high));
  return fits ? moved : events;
}

/** Prints "a 2" or "1." where a pair of winds begins to play one line. */
function labelled(
  events: readonly Event[],
  { tasks }: Material,
  id: InstrumentId,
  bar: number,
): readonly Event[] {
  const task = tasks[id][bar];
  const before = tasks[id][bar - 1];
  if (task?.kind !== "line" || task.label === "") return events;
  if (before?.kind === "line" && before.label === task.label) return events;
  const first = events.findIndex((event) => event.pitches.length > 0);
  return events.map((event, i) =>
    i === first ? { ...event, marks: [{ kind: "words", text: task.label }, ...event.marks] } : event,
  );
}

function drumBar({ lines, phrase }: Material, bar: number): Event[] {
  const bass = lines.bass?.[bar];
  if (!bass) throw new RangeError(`Drums without a bass: ${phrase.harmony}`);
  const beats = [0, 1, 2, 3].map((beat) => drumAt(bass, beat * (BAR / 4)));
  const hits = beats.map((pitch, beat) => (beat % 2 === 0 || !beats[beat - 1] ? pitch : undefined));
  return mergeRests(hits);
}

function mergeRests(hits: readonly (Pitch | undefined)[]): Event[] {
  const events: Event[] = [];
  const beat = BAR / 4;
  for (let i = 0; i < hits.length; ) {
    const pitch = hits[i];
    let end = i + 1;
    while (!pitch && end < hits.length && !hits[end]) end++;
    events.push(...(pitch ? eventsFor(beat, [pitch]) : restsFrom(i * beat, end * beat)));
    i = end;
  }
  return events;
}

function drumAt(bass: readonly Event[], tick: number): Pitch | undefined {
  const sounding = eventAt(bass, tick);
  const pitch = sounding?.attacked ? sounding.event.pitches[0] : undefined;
  const drum = pitch && DRUMS.find((midi) => midi % 12 === midiOf(pitch) % 12);
  return pitch && drum !== undefined ? { ...pitch, octave: Math.floor(drum / 12) - 1 } : undefined;
}

type DrawnBars = Partial<Record<InstrumentId, (readonly Event[] | undefined)[]>>;

function drawFigures(material: Material): DrawnBars {
  const drawn: DrawnBars = {};
  const isLed = (id: InstrumentId, bar: number) => {
    const task = material.tasks[id][bar];
    return task?.kind === "figure" && !isBroken(task.figure);
  };
  drawRuns(material, drawn, (bar) => INNER_STRINGS.filter((id) => isLed(id, bar)));
  for (const id of INSTRUMENT_IDS.filter((each) => !INNER_STRINGS.includes(each))) {
    drawRuns(material, drawn, (bar) => (isLed(id, bar) ? [id] : []));
  }
  for (const id of INSTRUMENT_IDS) {
    drawRuns(material, drawn, (bar) => {
      const task = material.tasks[id][bar];
      return task?.kind === "figure" && isBroken(task.figure) ? [id] : [];
    });
  }
  return drawn;
}

/** Finds stretches of bars in which the same instruments are led together, and draws each stretch. */
function drawRuns(material: Material, drawn: DrawnBars, groupAt: (bar: number) => InstrumentId[]): void {
  const { bars } = material.phrase;
  for (let start = 0; start < bars; ) {
    const group = groupAt(start);
    let end = start + 1;
    while (end < bars && groupAt(end).join() === group.join()) end++;
    if (group.length > 0) drawRun(material, drawn, group, start, end);
    start = end;
  }
}

function drawRun(
  material: Material,
  drawn: DrawnBars,
  group: readonly InstrumentId[],
  start: number,
  end: number,
): void {
  const segments = material.segments.filter(({ bar }) => bar >= start && bar < end);
  const ranges = rangesFor(material, group, start);
  const voicings = leadVoices(
    segments.map((segment) => frameOf(material, segment, group)),
    ranges,
  );
  segments.forEach((segment, i) => {
    const voices = voicings[i] ?? [];
    group.forEach((id, voice) => {
      const task = material.tasks[id][segment.bar];
      if (task?.kind !== "figure") return;
      const own = group.length > 1 ? voices.slice(voice, voice + 1) : voices;
      const bar = [...(drawn[id]?.[segment.bar] ?? []), ...drawFigure(task.figure, own, segment.ticks)];
      const bars = drawn[id] ?? [];
      bars[segment.bar] = bar;
      drawn[id] = bars;
    });
  });
}

function rangesFor(material: Material, group: readonly InstrumentId[], bar: number): VoiceRange[] {
  const first = group[0];
  const task = first && material.tasks[first][bar];
  if (first && task?.kind === "figure" && isBroken(task.figure))
    return [...(INSTRUMENTS[first].broken ?? [])];
  return group.flatMap((id) => INSTRUMENTS[id].inner);
}

function frameOf({ lines }: Material, segment: Segment, group: readonly InstrumentId[]): VoicingFrame {
  const topMidi = (name: string) => {
    const bar = lines[name]?.[segment.bar];
    const pitches = bar && eventAt(bar, segment.onset)?.event.pitches;
    return pitches && pitches.length > 0 ? Math.max(...pitches.map(midiOf)) : undefined;
  };
  const melody = topMidi("melody") ?? topMidi("solo");
  // High winds may lie above the melody: they see its pitch class low down, where it sets no ceiling.
  const isAbove = group.some((id) => id === "fl" || id === "ob");
  return {
    chord: segment.chord,
    bass: topMidi("bass"),
    melody: isAbove && melody ? 96 + (melody % 12) : melody,
  };
}
