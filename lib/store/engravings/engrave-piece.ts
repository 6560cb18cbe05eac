import { z } from "zod";
import type { CutTerms } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { engraveScreen } from "@/lib/engrave/engraver";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import type { ScreenEngraving } from "@/lib/engrave/screen-engraving";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { findAgreedRewrites } from "../editions/agreed-rewrites";
import { findAgreedCuts } from "../editions/working-edition";
import { parseInput } from "../parse-input";
import { findMainSource, type MainSource } from "../pieces/score-of-source";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { joinJob } from "./engraving-jobs";
import {
  type EngravingSummary,
  type EngravingView,
  engravingViews,
  type ScreenLayout,
  screenLayouts,
} from "./engraving-record";
import { findDrawnParts } from "./music-of-view";
import { findEngraving } from "./read-engraving";
import { saveEngraving } from "./save-engraving";
import { writeInThread } from "./write-in-thread";

const askSchema = z.object({
  view: z.enum(engravingViews).default("open"),
  layout: z.enum(screenLayouts).default("desk"),
});

export type AskedEngraving =
  | { readonly state: "ready"; readonly summary: EngravingSummary }
  | { readonly state: "working"; readonly progress: number };

/** How long an answer may wait for the engraver before it says "working": small pieces are there by then. */
const patienceMilliseconds = 400;

/**
 * The engraving of a piece for one layout: kept from before, or begun now. Whoever asks again while it is being
 * made hears how far it is.
 */
export async function engravePiece(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<AskedEngraving, StoreProblem>> {
  const asked = parseInput(askSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const source = await findMainSource(pieceId);
  const { view, layout } = asked.value;
  const drawn = { source, layout, view, ...(await findDecided(pieceId, source, view)) };
  const key = keyOf(drawn);
  const kept = await findEngraving(pieceId, key);
  if (kept) return success({ state: "ready", summary: kept });
  const job = joinJob(`${pieceId} ${key}`, (report) => engrave({ pieceId, key, ...drawn }, report));
  const done = await Promise.race([job.done, pause()]);
  if (done === "waiting") return success({ state: "working", progress: job.progress });
  return done.ok ? success({ state: "ready", summary: done.value }) : done;
}

/** What both have decided, where it is drawn: rewrites of another file than the piece's do not fit its bars. */
async function findDecided(
  pieceId: string,
  source: MainSource,
  view: EngravingView,
): Promise<Pick<Drawn, "cuts" | "rewrites">> {
  if (view !== "as-it-will-read") return { cuts: [], rewrites: [] };
  const rewrites = await findAgreedRewrites(pieceId, database());
  return {
    cuts: await findAgreedCuts(pieceId),
    rewrites: rewrites.filter(({ sourceHash }) => sourceHash === source.hash),
  };
}

/** Everything that decides what the engraving looks like. */
interface Drawn {
  readonly source: MainSource;
  readonly cuts: readonly CutTerms[];
  readonly rewrites: readonly RewriteTerms[];
  readonly layout: ScreenLayout;
  readonly view: EngravingView;
}

function keyOf({ source, cuts, rewrites, layout, view }: Drawn): string {
  const partIds = findDrawnParts(source.partRoles, view === "solo");
  const drawn = { source: source.hash, partIds, cuts, layout, engraver: engraverVersion };
  if (rewrites.length > 0) return hashTerms({ ...drawn, rewrites });
  return hashTerms(view === "solo" ? { ...drawn, condensesRests: true } : drawn);
}

interface Engraving extends Drawn {
  readonly pieceId: string;
  readonly key: string;
}

async function engrave(
  { pieceId, key, source, cuts, rewrites, layout, view }: Engraving,
  report: (progress: number) => void,
): Promise<EngravingSummary> {
  const { bytes } = await database().sourceBytes.findUniqueOrThrow({ where: { sourceId: source.id } });
  const isSoloAlone = view === "solo";
  const partIds = findDrawnParts(source.partRoles, isSoloAlone);
  const { musicXml, sourceBars } = await writeInThread({ bytes, partIds, cuts, rewrites });
  const engraving = await engraveScreen({
    ...{ musicXml, layout, onProgress: report },
    condensesRests: isSoloAlone,
  });
  return saveEngraving(pieceId, key, inBarsOfSource(engraving, sourceBars));
}

/** Bars are counted as in the source everywhere outside the engraver, cuts or no cuts. */
function inBarsOfSource(engraving: ScreenEngraving, sourceBars: readonly number[]): ScreenEngraving {
  const inSource = (barIndex: number) => sourceBars[barIndex] ?? barIndex;
  const systems = engraving.systems.map((system) => ({
    ...system,
    firstBarIndex: inSource(system.firstBarIndex),
    lastBarIndex: inSource(system.lastBarIndex),
    bars: system.bars.map((bar) => ({ ...bar, barIndex: inSource(bar.barIndex) })),
  }));
  return { ...engraving, systems };
}

function pause(): Promise<"waiting"> {
  return new Promise((resolve) => setTimeout(() => resolve("waiting"), patienceMilliseconds));
}
