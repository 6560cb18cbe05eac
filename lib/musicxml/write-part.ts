import type { Bar } from "@/lib/score/bar";
import type { Direction } from "@/lib/score/direction";
import type { Part } from "@/lib/score/part";
import { compareQuarters, isEqualQuarters, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { Tempi } from "./attach-tempi";
import { MeasureWriter } from "./measure-writer";
import { orderVoices, placeOf } from "./order-voices";
import { isSameMetre } from "./time-element";
import { writeAttributes } from "./write-attributes";
import { writeJumps, writeJumpTargets, writeLeftBarline, writeRightBarline } from "./write-barlines";
import { writeDirection, writeTempo, writeTempoWords } from "./write-direction";
import { writeNote, writeRest } from "./write-note";
import { element, type XmlElement } from "./xml-tree";

/** One `part` with all its measures. */
export function writePart({ score, tempi, anchored }: Whole, part: Part, partIndex: number): XmlElement {
  const content = splitByBar(score, part);
  const written = element("part", { id: part.id });
  let divisions = 0;
  for (const bar of score.bars) {
    const own = content[bar.index] ?? emptyContent();
    const job = { score, tempi, anchored, part, partIndex, bar, content: own };
    const writer = new MeasureWriter(timesIn(job), divisions);
    divisions = writer.divisions;
    writeMeasure(writer, job);
    written.children.push(element("measure", measureAttributes(bar, partIndex), ...writer.children));
  }
  return written;
}

interface BarContent {
  readonly notes: Part["notes"][number][];
  readonly rests: Part["rests"][number][];
  readonly directions: Direction[];
  readonly clefs: Part["clefs"][number][];
  readonly keys: Part["keys"][number][];
  readonly transpositions: Part["transpositions"][number][];
}

/** What is worked out once for all parts. */
export interface Whole {
  readonly score: Score;
  readonly tempi: Tempi;
  readonly anchored: ReadonlySet<number>;
}

interface Job extends Whole {
  readonly part: Part;
  readonly partIndex: number;
  readonly bar: Bar;
  readonly content: BarContent;
}

const emptyContent = (): BarContent => ({
  notes: [],
  rests: [],
  directions: [],
  clefs: [],
  keys: [],
  transpositions: [],
});

function splitByBar(score: Score, part: Part): BarContent[] {
  const bars = score.bars.map(emptyContent);
  for (const note of part.notes) bars[note.barIndex]?.notes.push(note);
  for (const rest of part.rests) bars[rest.barIndex]?.rests.push(rest);
  for (const direction of part.directions) bars[direction.barIndex]?.directions.push(direction);
  for (const clef of part.clefs) bars[clef.barIndex]?.clefs.push(clef);
  for (const key of part.keys) bars[key.barIndex]?.keys.push(key);
  for (const change of part.transpositions) bars[change.barIndex]?.transpositions.push(change);
  return bars;
}

function timesIn({ bar, content, partIndex, tempi }: Job): Quarters[] {
  const { notes, rests, directions, clefs, keys, transpositions } = content;
  const alone = partIndex > 0 ? [] : tempi.alone.filter(({ barIndex }) => barIndex === bar.index);
  const placed = [notes, rests, directions, clefs, keys, transpositions, alone].flat();
  const offsets = placed.map(({ onset }) => subtractQuarters(onset, bar.start));
  return [...offsets, ...[...notes, ...rests].map(({ duration }) => duration), bar.length];
}

function measureAttributes(bar: Bar, partIndex: number): Record<string, string> {
  const implicit: Record<string, string> = bar.isPickup ? { implicit: "yes" } : {};
  return { number: bar.label, ...implicit, ...(partIndex === 0 ? { id: bar.id } : {}) };
}

function writeMeasure(writer: MeasureWriter, job: Job): void {
  const { bar, partIndex, score } = job;
  writer.add(writeLeftBarline(bar));
  writeOpening(writer, job);
  if (partIndex === 0) {
    writer.add(writeJumpTargets(bar));
    if (job.anchored.has(bar.index)) writer.moveTo(bar.length);
  }
  writeStreams(writer, job);
  if (partIndex === 0) writer.add(writeJumps(bar));
  writer.add(writeRightBarline(bar, score.bars[bar.index + 1] ?? null));
}

/** What holds from the start of the bar. */
function writeOpening(writer: MeasureWriter, { bar, score, part, content }: Job): void {
  const atStart = ({ onset }: { onset: Quarters }) => isEqualQuarters(onset, bar.start);
  const before = score.bars[bar.index - 1];
  const attributes = writeAttributes({
    divisions: writer.hasNewDivisions ? writer.divisions : null,
    keys: content.keys.filter(atStart),
    metre: before && isSameMetre(before.metre, bar.metre) ? null : bar.metre,
    staffCount: bar.index === 0 && part.staffCount > 1 ? part.staffCount : null,
    clefs: content.clefs.filter(atStart),
    transpositions: content.transpositions.filter(atStart),
  });
  writer.add(attributes);
}

function writeStreams(writer: MeasureWriter, job: Job): void {
  const { bar, part, content } = job;
  const hasStaves = part.staffCount > 1;
  const count = (time: Quarters) => writer.count(time);
  const extras = extrasOf(job);
  const writeExtras = (until: Quarters | null) => {
    for (let extra = extras[0]; extra && isDue(extra.offset, until); extra = extras[0]) {
      writer.moveTo(extra.offset);
      writer.add(extra.element);
      extras.shift();
    }
  };
  for (const stream of orderVoices(content.notes, content.rests)) {
    for (const item of stream) {
      const offset = subtractQuarters(placeOf(item).onset, bar.start);
      writeExtras(offset);
      if (item.kind === "note") writer.addNote(writeNote(item.note, count, hasStaves), item.note, offset);
      else writer.addRest(writeRest(item.rest, count, hasStaves), item.rest.duration, offset);
    }
  }
  writeExtras(null);
}

const isDue = (offset: Quarters, until: Quarters | null) =>
  until === null || compareQuarters(offset, until) <= 0;

interface Extra {
  readonly offset: Quarters;
  readonly element: XmlElement;
}

/** Directions, tempi and changes inside the bar, by their place. */
function extrasOf(job: Job): Extra[] {
  const extras = [...attributesInside(job), ...tempiAlone(job), ...writeDirections(job)];
  return extras.sort((a, b) => compareQuarters(a.offset, b.offset));
}

function attributesInside({ bar, content }: Job): Extra[] {
  const nothing = { divisions: null, keys: [], metre: null, staffCount: null, clefs: [], transpositions: [] };
  const changes = [
    ...content.keys.map((key) => ({
      onset: key.onset,
      element: writeAttributes({ ...nothing, keys: [key] }),
    })),
    ...content.clefs.map((clef) => ({
      onset: clef.onset,
      element: writeAttributes({ ...nothing, clefs: [clef] }),
    })),
    ...content.transpositions.map((change) => {
      return { onset: change.onset, element: writeAttributes({ ...nothing, transpositions: [change] }) };
    }),
  ];
  return changes.flatMap(({ onset, element }) => {
    const offset = subtractQuarters(onset, bar.start);
    return offset.num > 0 && element !== null ? [{ offset, element }] : [];
  });
}

function tempiAlone({ bar, partIndex, tempi }: Job): Extra[] {
  if (partIndex > 0) return [];
  return tempi.alone
    .filter(({ barIndex }) => barIndex === bar.index)
    .map((mark) => ({ offset: subtractQuarters(mark.onset, bar.start), element: writeTempo(mark) }));
}

function writeDirections({ bar, part, content, tempi }: Job): Extra[] {
  const hasStaves = part.staffCount > 1;
  const joined = new Set<Direction>();
  return content.directions.flatMap((direction) => {
    if (joined.has(direction)) return [];
    const tempo = tempi.attached.get(direction);
    for (const words of tempo?.words ?? []) joined.add(words);
    const element = tempo ? writeTempoWords(tempo, hasStaves) : writeDirection(direction, hasStaves);
    return [{ offset: subtractQuarters(direction.onset, bar.start), element }];
  });
}
