import { promisify } from "node:util";
import { gzip } from "node:zlib";
import { z } from "zod";
import { hashText } from "@/lib/edition/hash-terms";
import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { type PagesPlan, pagesPlanSchema } from "@/lib/engrave/pages/pages-plan";
import { previewEdition } from "@/lib/engrave/pages/preview-edition";
import { type PrintOptions, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { failure, type Result, success } from "@/lib/score/result";
import { type EditionPrint, printInputOf } from "@/lib/store/editions/print-input-of";
import { listPageBreaks } from "@/lib/store/page-breaks/list-page-breaks";
import type { PageBreakRecord } from "@/lib/store/page-breaks/page-break-record";
import { parseInput } from "@/lib/store/parse-input";
import { readMembership } from "@/lib/store/read-membership";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { readEditionPrint } from "./edition-print";
import { type Glimpse, glimpse, type Lately, MadeLately } from "./print-lately";

const askedSchema = printOptionsSchema.and(z.object({ number: z.coerce.number().int().min(1).max(100_000) }));

/** What is the same for as long as the pages are. */
const keptPlanSchema = pagesPlanSchema.omit({ pins: true });

interface Preview {
  readonly plan: z.infer<typeof keptPlanSchema>;
  /** Each page's SVG, packed. */
  readonly pictures: readonly Uint8Array<ArrayBuffer>[];
}

/** Packed, the pictures of forty pages are some two megabytes. */
const previews = new MadeLately<Preview>(24);
const pack = promisify(gzip);

interface Asked {
  readonly preview: Lately<Preview>;
  readonly pins: readonly PageBreakRecord[];
}

/** The pages of an edition as they will be printed, without pictures, or how far they are. */
export async function previewPages(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<Glimpse<PagesPlan>, StoreProblem>> {
  const asked = await ask(viewer, pieceId, input);
  if (!asked.ok) return asked;
  const seen = await glimpse(asked.value.preview);
  if (!seen.ok || seen.value.state === "making") return seen as Result<Glimpse<PagesPlan>, StoreProblem>;
  const { plan } = seen.value.value;
  const pins = asked.value.pins.map(({ barIndex, pinnedBy, at }) => ({
    ...{ barIndex, pinnedBy, at: at.toISOString() },
    label: plan.bars.find(({ sourceIndex }) => sourceIndex === barIndex)?.label ?? null,
  }));
  return success({ state: "made", value: { ...plan, pins } });
}

const pageSchema = z.coerce.number().int().min(1).max(10_000);

/** The picture of one page, packed. */
export async function previewPicture(
  viewer: Viewer,
  pieceId: string,
  page: string,
  input: unknown,
): Promise<Result<Uint8Array<ArrayBuffer>, StoreProblem>> {
  const number = parseInput(pageSchema, page);
  if (!number.ok) return failure({ kind: "not-found" });
  const found = await findPreview(viewer, pieceId, input);
  if (!found.ok) return found;
  const preview = await found.value.made;
  if (!preview.ok) return preview;
  const picture = preview.value.pictures[number.value - 1];
  return picture ? success(picture) : failure({ kind: "not-found" });
}

const keySchema = z.object({ key: z.string().regex(/^[0-9a-f]{64}$/) });

/** By its key, when it is kept: then a page does not need the whole edition read again. */
async function findPreview(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<Lately<Preview>, StoreProblem>> {
  const key = keySchema.safeParse(input);
  const kept = key.success ? previews.find(nameKept(pieceId, key.data.key)) : null;
  if (kept) {
    const membership = await readMembership(viewer, pieceId);
    return membership.ok ? success(kept) : membership;
  }
  const asked = await ask(viewer, pieceId, input);
  return asked.ok ? success(asked.value.preview) : asked;
}

const nameKept = (pieceId: string, key: string): string => `${pieceId} ${key}`;

async function ask(viewer: Viewer, pieceId: string, input: unknown): Promise<Result<Asked, StoreProblem>> {
  const asked = parseInput(askedSchema, input);
  if (!asked.ok) return failure({ kind: "not-found" });
  const { number, ...options } = asked.value;
  const print = await readEditionPrint(viewer, pieceId, number);
  if (!print.ok) return print;
  const { sourceHash } = print.value.edition.content;
  const pins = await listPageBreaks(viewer, pieceId, { ...options, sourceHash });
  if (!pins.ok) return pins;
  const pinnedBars = pins.value.map(({ barIndex }) => barIndex);
  const key = keyOf(print.value, options, pinnedBars);
  const preview = previews.join(nameKept(pieceId, key), (report) =>
    make(key, print.value, options, pinnedBars, report),
  );
  return success({ preview, pins: pins.value });
}

/** Names everything that the pages are made from. */
function keyOf({ piece, edition }: EditionPrint, options: PrintOptions, pinnedBars: readonly number[]) {
  const { title, movement, composer, soloInstrument } = piece;
  const { number, hash, frozenAt, approvals } = edition;
  const about = { title, movement, composer, soloInstrument, number, hash, frozenAt, approvals };
  return hashText(JSON.stringify({ about, options, pinnedBars, engraverVersion }));
}

async function make(
  key: string,
  print: EditionPrint,
  options: PrintOptions,
  pinnedBars: readonly number[],
  report: (progress: number) => void,
): Promise<Result<Preview, StoreProblem>> {
  try {
    const { pages, ...sizes } = await previewEdition(printInputOf(print, options, pinnedBars), report);
    const pictures = await Promise.all(pages.map(async ({ svg }) => new Uint8Array(await pack(svg))));
    const plan = keptPlanSchema.parse({ key, ...sizes, pages });
    return success({ plan, pictures });
  } catch (error) {
    if (!(error instanceof EngraveFailure)) throw error;
    return failure({ kind: "not-engraved", sentence: sayEngraveProblem(error.problem) });
  }
}
