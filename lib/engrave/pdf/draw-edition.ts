import { childrenNamed } from "@/lib/musicxml/xml-tree";
import type { PartRole } from "@/lib/score/part";
import type { EngraveLayout } from "../engrave-layout";
import { engraveSystems } from "../engrave-systems";
import type { EngravedSystem } from "../screen-engraving";
import type { Engraver } from "../toolkit";
import {
  type EditionMusic,
  findNumberedBars,
  findWantedBreaks,
  readEditionSource,
  takeEditionMusic,
} from "./edition-music";
import { PdfPages, paperSizes } from "./pdf-page";
import { planPages } from "./plan-pages";
import { openPrintFonts } from "./print-fonts";
import type { PrintInput } from "./print-input";
import { drawFooter, drawTitleBlock, nameEdition, sideMargin } from "./title-block";

/** Height of a staff in points: 6.3 mm for the pianist, 7 mm for a part on a stand. Common practice. */
const staffPoints = { pianist: 17.9, soloist: 19.8 } as const;
/** Of the solo part over the reduction, in percent. */
const soloStaffSize = 70;
/** Share of the time that engraving takes; drawing the pages is the rest. */
const engravingShare = 0.5;

/** Draws an edition; to be run in the thread that engraves. See `printEdition`. */
export async function drawEdition(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  onProgress: (progress: number) => void,
): Promise<Uint8Array> {
  const fonts = await openPrintFonts(toolkit);
  const { titleBlock, reader, paper } = input;
  const roles: PartRole[] = reader === "pianist" ? ["solo", "reduction"] : ["solo"];
  const music = takeEditionMusic(readEditionSource(input.sourceMusicXml), input, roles, true);
  const systems = engrave(toolkit, input, music, (done) => onProgress(engravingShare * done));
  const pages = new PdfPages(fonts, paper, {
    title: nameEdition(titleBlock),
    author: titleBlock.composer ?? "",
    subject: reader === "pianist" ? "Solo and piano" : "Solo part",
  });
  pages.addPage();
  const firstTop = drawTitleBlock(pages, titleBlock, namePart(input));
  const labels = childrenNamed(music.tree.parts[0] ?? music.tree.root, "measure").map(
    (measure) => measure.attributes.number ?? "",
  );
  drawSystems(pages, input, { systems, labels }, firstTop, (done) =>
    onProgress(engravingShare + (1 - engravingShare) * done),
  );
  return pages.finish();
}

function namePart({ reader, titleBlock }: PrintInput): string {
  const solo = titleBlock.soloInstrument ?? "Solo";
  return reader === "pianist" ? `Piano, with ${solo.toLowerCase()}` : solo;
}

function layoutFor({ reader, paper }: PrintInput): EngraveLayout {
  const width = paperSizes[paper].width - 2 * sideMargin;
  return {
    systemUnits: (width / staffPoints[reader]) * 8,
    spacing: 0.6,
    barNumbers: "every-bar",
    firstLabels: reader === "pianist" ? "full" : "short",
    takesWantedBreaks: true,
    fillsLastSystem: false,
  };
}

function engrave(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  music: EditionMusic,
  onProgress: (done: number) => void,
): EngravedSystem[] {
  const numbered = findNumberedBars(music);
  const solo = music.tree.parts.find((part) => input.partRoles[part.attributes.id ?? ""] === "solo");
  const isSmall = input.reader === "pianist" && music.tree.parts.length > 1;
  const sizes = isSmall && solo ? { [solo.attributes.id ?? ""]: soloStaffSize } : {};
  let count = 1;
  const drawn = engraveSystems(toolkit, music.tree, layoutFor(input), {
    staffSizes: sizes,
    wantedBreaks: findWantedBreaks(music),
    condensesRests: input.reader === "soloist",
    isNumbered: (barIndex) => numbered.has(barIndex),
    onLoaded: (systemCount) => {
      count = systemCount;
    },
  });
  const systems: EngravedSystem[] = [];
  for (const system of drawn) {
    systems.push(system);
    onProgress(systems.length / count);
  }
  return systems;
}

function drawSystems(
  pages: PdfPages,
  { paper, titleBlock }: PrintInput,
  { systems, labels }: { readonly systems: readonly EngravedSystem[]; readonly labels: readonly string[] },
  firstTop: number,
  onProgress: (done: number) => void,
): void {
  const { width, height } = paperSizes[paper];
  const inner = width - 2 * sideMargin;
  const heights = systems.map((system) => (system.height * inner) / system.width);
  const plan = planPages(heights, { firstTop, top: 40, bottom: height - 44, gap: 10 });
  for (const [index, page] of plan.entries()) {
    if (index > 0) pages.addPage();
    for (const placed of page) {
      const system = systems[placed.index];
      if (!system) continue;
      const [first, last] = [labels[system.firstBarIndex], labels[system.lastBarIndex]];
      const bars = first === last ? `Bar ${first}` : `Bars ${first} to ${last}`;
      pages.picture(bars, () => pages.system(system, sideMargin, placed.y, inner));
    }
    drawFooter(pages, titleBlock, index + 1, plan.length);
    onProgress((index + 1) / plan.length);
  }
}
