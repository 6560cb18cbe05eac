import { layOutPages } from "@/lib/engrave/pages/lay-out-pages";
import { isTurned } from "@/lib/engrave/pages/paging";
import { type EditionPages, prepareEdition } from "@/lib/engrave/pdf/prepare-edition";
import type { PrintInput } from "@/lib/engrave/pdf/print-input";
import { defaultPrintOptions, type PrintReader } from "@/lib/engrave/pdf/print-options";
import type { EngravedSystem } from "@/lib/engrave/screen-engraving";
import { type Engraver, openEngraver } from "@/lib/engrave/toolkit";
import { readScore } from "@/lib/musicxml/read-score";
import { corpusScores, readCorpusFile } from "../corpus/corpus-folder";

type Row = Record<string, string | number>;

/** Where music starts under a title of usual size, in points. */
const firstTop = 150;
const enough = 1;

const pieces = [
  ...corpusScores("solo-piano"),
  ...corpusScores("pairs").filter((file) => /reduction|vocal/.test(file) && !file.includes("haydn")),
  ...corpusScores("songs"),
];

function inputFor(file: string, reader: PrintReader): PrintInput | null {
  const sourceMusicXml = readCorpusFile(file);
  const read = readScore(sourceMusicXml);
  if (!read.ok) return null;
  const { parts } = read.value.score;
  if (!parts.some(({ role }) => role === "reduction") || !parts.some(({ role }) => role === "solo"))
    return null;
  const partRoles = Object.fromEntries(parts.map(({ id, role }) => [id, role]));
  const titleBlock = {
    ...{ title: file, movement: null, composer: null, soloInstrument: null },
    ...{ editionNumber: 1, frozenOn: "2026-01-01", hash: "", players: [] },
  };
  return { sourceMusicXml, partRoles, cuts: [], options: defaultPrintOptions(reader), titleBlock };
}

/** The engraver's default: as many of its lines on each page as fit. Bars that begin pages 2, 3, …. */
function fillPages({ layout }: EditionPages, systems: readonly EngravedSystem[]): number[] {
  const { room, heightOf } = layout;
  const starts: number[] = [];
  let y = room.firstTop - room.gap;
  for (const [index, system] of systems.entries()) {
    y += room.gap + heightOf(system);
    if (y <= room.bottom || index === 0) continue;
    starts.push(system.firstBarIndex);
    y = room.top + heightOf(system);
  }
  return starts;
}

interface Tally {
  readonly pages: number;
  readonly turns: number;
  readonly free: number;
}

/** Turns at which a hand is free for a second; a page that is turned twice counts twice. */
function tally({ layout }: EditionPages, pageStarts: readonly number[]): Tally {
  const moments = pageStarts.flatMap((bar, pageIndex) =>
    isTurned(pageIndex, layout.paging) ? layout.turnsBefore(bar) : [],
  );
  const free = moments.filter(({ freeSeconds }) => freeSeconds >= enough).length;
  return { pages: pageStarts.length + 1, turns: moments.length, free };
}

function measure(toolkit: Engraver["toolkit"], file: string, input: PrintInput) {
  const edition = prepareEdition(toolkit, input, { firstTop }, () => {});
  const engraved: (readonly EngravedSystem[])[] = [];
  const engrave: EditionPages["layout"]["engrave"] = (lines) => {
    const systems = edition.layout.engrave(lines);
    engraved.push(systems);
    return systems;
  };
  const laidOut = layOutPages({ ...edition.layout, engrave });
  const own = engraved[0] ?? [];
  const even = layOutPages({ ...edition.layout, engrave: () => own, turnsBefore: () => [] });
  return {
    file,
    filled: tally(edition, fillPages(edition, own)),
    even: tally(edition, startsOf(even)),
    ours: tally(edition, startsOf(laidOut)),
    lines: laidOut.systems === own ? "the engraver's" : "chosen",
  };
}

function startsOf({ systems, counts }: ReturnType<typeof layOutPages>): number[] {
  let next = 0;
  return counts.slice(0, -1).map((count) => {
    next += count;
    return systems[next]?.firstBarIndex ?? 0;
  });
}

const say = ({ free, turns, pages }: Tally): string => `${free} of ${turns} (${pages} p.)`;
const share = (tallies: readonly Tally[]): string => {
  const [free, turns] = [
    tallies.reduce((sum, each) => sum + each.free, 0),
    tallies.reduce((sum, each) => sum + each.turns, 0),
  ];
  return `${Math.round((100 * free) / Math.max(1, turns))} %, ${free} of ${turns}`;
};

/** Turns with a free hand of at least a second on corpus pieces: the engraver's breaks against ours. */
export const benchmark = {
  name: "Page turns with a free hand for at least 1 s, every page turned",
  async run(): Promise<Row[]> {
    const rows: Row[] = [];
    for (const reader of ["pianist", "soloist"] as const) {
      const measured: ReturnType<typeof measure>[] = [];
      for (const file of pieces) {
        const input = inputFor(file, reader);
        // An engraver for each piece: its memory never shrinks.
        const { toolkit } = await openEngraver();
        const row = input && measure(toolkit, file, input);
        if (!row || row.filled.turns === 0) continue;
        measured.push(row);
        const { filled, even, ours, lines } = row;
        rows.push({ reader, piece: file, filled: say(filled), even: say(even), ours: say(ours), lines });
      }
      rows.push({
        reader,
        piece: `all ${measured.length}`,
        filled: share(measured.map((row) => row.filled)),
        even: share(measured.map((row) => row.even)),
        ours: share(measured.map((row) => row.ours)),
        lines: "",
      });
    }
    return rows;
  },
};
