import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";
import { type EngraveLayout, reloadOptions, toolkitOptions } from "./engrave-layout";
import { breakPages } from "./mei/break-pages";
import { patchKeys } from "./mei/patch-keys";
import { patchSpans } from "./mei/patch-spans";
import { findStaffKeys } from "./mei/staff-keys";
import { type NormaliseOptions, normaliseForEngraving } from "./normalise/normalise";
import { findOssiaStaves } from "./ossia/find-ossia-staves";
import { ossiaOptions } from "./ossia/ossia-options";
import { patchOssias } from "./ossia/patch-ossias";
import { showOssiaClefs } from "./ossia/show-ossia-clefs";
import { type PictureOptions, readSystem, renumberSystem } from "./picture/inert-svg";
import type { EngravedSystem } from "./screen-engraving";
import type { Engraver } from "./toolkit";
import { findWordChains, shortenWords } from "./word-chains";

export interface LineOptions extends Omit<NormaliseOptions, "firstLabels"> {
  readonly pictures?: PictureOptions;
  /** From 0 to 1, for each engraving anew. */
  readonly onProgress?: (done: number) => void;
}

/** Share of the time that laying out takes, before the first line can be drawn. Measured on a concerto movement. */
const loadingShare = 0.5;

/**
 * A score that is engraved in the engraver's own lines, then once more in others, all of one layout and one system to a
 * picture. The second time its notation is known already, and lines that stay are not drawn again. Nothing else may be
 * loaded into the engraver between the two.
 */
export class LineEngraver {
  private readonly idOfBar: readonly string[];
  private readonly barOfId: ReadonlyMap<string, number>;
  private mei: string | null = null;
  /** The engraver's own lines but for those that are only sketched, by their first bar and that of the line after them. */
  private known: ReadonlyMap<string, EngravedSystem> | null = null;
  private hasSketches = false;

  /** @param tree changed in place. */
  constructor(
    private readonly toolkit: Engraver["toolkit"],
    private readonly tree: MusicXmlTree,
    private readonly layout: EngraveLayout,
    private readonly options: LineOptions,
  ) {
    this.idOfBar = childrenNamed(tree.parts[0] ?? tree.root, "measure").map(
      ({ attributes }) => attributes.id ?? "",
    );
    this.barOfId = new Map(this.idOfBar.map((id, index) => [id, index]));
    normaliseForEngraving(tree, { ...options, firstLabels: layout.firstLabels });
  }

  /**
   * The engraver's own lines, some of them perhaps only sketched (see `isSketch`).
   *
   * @throws Error if the engraver cannot make anything of the score.
   */
  inOwnLines(): EngravedSystem[] {
    const { toolkit, tree, layout } = this;
    const keys = findStaffKeys(tree);
    const ossias = findOssiaStaves(tree);
    const chained = new Set(findWordChains(tree));
    const isPatched = keys.length + ossias.length + chained.size > 0;
    const wanted = toolkitOptions(layout);
    // Keys and ossias are patched in the engraver's own notation: a first loading, without a layout, makes it.
    this.load(writeTree(tree), isPatched ? { ...wanted, breaks: "none" } : wanted);
    const mei = isPatched || this.options.condensesRests ? toolkit.getMEI({}) : null;
    this.mei = mei && patchSpans(mei, this.idOfBar);
    if (this.mei && isPatched) {
      this.mei = patchOssias(patchKeys(this.mei, keys), ossias);
      this.loadAgain(shortenWords(this.mei, chained), { ...wanted, ...ossiaOptions(ossias) });
    } else if (this.mei && this.mei !== mei) this.loadAgain(this.mei, wanted);
    const systems = this.draw(null);
    this.remember(systems, chained);
    return systems;
  }

  /**
   * Whether some of the own lines are only sketched: they lack words that would have kept bars in one line, or the clef of an
   * ossia that runs on to them. Pages can be planned with them; `inLines` draws them whole.
   */
  get isSketch(): boolean {
    return this.hasSketches;
  }

  private remember(systems: readonly EngravedSystem[], chained: ReadonlySet<string>): void {
    const goOn = this.ossiasGoOn(systems.slice(1).map(({ firstBarIndex }) => firstBarIndex));
    const isWhole = ({ firstBarIndex, bars }: EngravedSystem) =>
      !goOn.has(firstBarIndex) && !bars.some(({ barIndex }) => chained.has(this.idOfBar[barIndex] ?? ""));
    this.known = new Map(
      systems.flatMap((system, index) =>
        isWhole(system) ? [[nameLine(system.firstBarIndex, systems[index + 1]?.firstBarIndex), system]] : [],
      ),
    );
    this.hasSketches = this.known.size < systems.length;
  }

  /** Those of some bars in which an ossia goes on that began before. */
  private ossiasGoOn(bars: readonly number[]): Set<number> {
    const mei = this.mei ?? "";
    const idOf = (bar: number) => this.idOfBar[bar] ?? "";
    if (showOssiaClefs(mei, bars.map(idOf)) === mei) return new Set();
    return new Set(bars.filter((bar) => showOssiaClefs(mei, [idOf(bar)]) !== mei));
  }

  /**
   * A line begins at each of these bars and no other.
   *
   * @throws RangeError if the own lines have not been engraved.
   */
  inLines(firstBars: readonly number[]): EngravedSystem[] {
    if (!this.known) throw new RangeError("The engraver's own lines come first");
    this.mei ??= this.toolkit.getMEI({});
    const ids = firstBars.map((bar) => this.idOfBar[bar] ?? "");
    const ossias = ossiaOptions(findOssiaStaves(this.tree));
    const mei = showOssiaClefs(this.mei, ids);
    this.loadAgain(breakPages(mei, new Set(ids)), {
      ...toolkitOptions(this.layout),
      ...ossias,
      breaks: "encoded",
    });
    return this.draw([0, ...firstBars]);
  }

  private loadAgain(mei: string, options: Readonly<Record<string, unknown>>): void {
    this.load(mei, { ...options, ...reloadOptions });
  }

  private load(text: string, options: Readonly<Record<string, unknown>>): void {
    this.toolkit.setOptions(options);
    if (!this.toolkit.loadData(text)) throw new Error("The engraver could not load the score");
  }

  /** @param firstBars of the lines, when they are given: those that are known are not drawn again. */
  private draw(firstBars: readonly number[] | null): EngravedSystem[] {
    const { toolkit, options } = this;
    const count = toolkit.getPageCount();
    if (count === 0) throw new Error("The engraver found nothing to draw");
    options.onProgress?.(loadingShare);
    const isAsGiven = firstBars?.length === count;
    return Array.from({ length: count }, (_, index) => {
      const known = isAsGiven ? this.known?.get(nameLine(firstBars[index], firstBars[index + 1])) : undefined;
      const system = known
        ? renumberSystem(known, index)
        : readSystem(toolkit.renderToSVG(index + 1), index, this.barOfId, options.pictures);
      options.onProgress?.(loadingShare + (1 - loadingShare) * ((index + 1) / count));
      return system;
    });
  }
}

const nameLine = (firstBar: number | undefined, next: number | undefined): string =>
  `${firstBar} ${next ?? "end"}`;
