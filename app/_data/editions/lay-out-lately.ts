import { hashText } from "@/lib/edition/hash-terms";
import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import type { LaidOutEdition } from "@/lib/engrave/pages/laid-out-edition";
import { layOutEdition } from "@/lib/engrave/pages/lay-out-edition";
import type { PrintOptions } from "@/lib/engrave/pdf/print-options";
import { failure, type Result, success } from "@/lib/score/result";
import type { StoreProblem } from "@/lib/store/store-problem";
import { type EditionPrint, printInputOf } from "./edition-print";

export type LaidOut = Result<LaidOutEdition, StoreProblem>;

/** Pages being made or made lately, with how far they are. */
interface Making {
  readonly pages: Promise<LaidOut>;
  progress: number;
  isDone: boolean;
}

const lately = new Map<string, Making>();
/** The pictures of forty pages are some ten megabytes. */
const mostKept = 6;

/** Names everything that the pages are made from. */
export function keyOfPages(
  { source: _bytes, ...about }: EditionPrint,
  options: PrintOptions,
  pinnedBars: readonly number[],
): string {
  const { title, movement, composer, soloInstrument } = about.piece;
  const { number, hash, frozenAt, approvals } = about.edition;
  const { sourceHash } = about.edition.content;
  const piece = { title, movement, composer, soloInstrument };
  const edition = { number, hash, frozenAt, approvals, sourceHash };
  return hashText(JSON.stringify({ piece, edition, options, pinnedBars, engraverVersion }));
}

/**
 * The pages of an edition as pictures. Made lately, or being made for somebody else, they are given again; what failed is
 * not kept.
 */
export function layOutLately(
  print: EditionPrint,
  options: PrintOptions,
  pinnedBars: readonly number[],
): Promise<LaidOut> {
  return begin(print, options, pinnedBars).pages;
}

/** The same without waiting: how far the pages are, from 0 to 1, or the pages themselves. */
export async function glimpsePages(
  print: EditionPrint,
  options: PrintOptions,
  pinnedBars: readonly number[],
): Promise<{ readonly progress: number } | { readonly laidOut: LaidOut }> {
  const making = begin(print, options, pinnedBars);
  return making.isDone ? { laidOut: await making.pages } : { progress: making.progress };
}

function begin(print: EditionPrint, options: PrintOptions, pinnedBars: readonly number[]): Making {
  const key = keyOfPages(print, options, pinnedBars);
  const known = lately.get(key);
  if (known) {
    // Asked for again, it is the last to be let go.
    lately.delete(key);
    lately.set(key, known);
    return known;
  }
  const making: Making = {
    pages: make(print, options, pinnedBars, (progress) => {
      making.progress = progress;
    }),
    progress: 0,
    isDone: false,
  };
  lately.set(key, making);
  making.pages.then(
    (pages) => {
      making.isDone = true;
      if (!pages.ok) forget(key, making);
    },
    () => forget(key, making),
  );
  const [oldest] = lately.keys();
  if (lately.size > mostKept && oldest !== undefined) lately.delete(oldest);
  return making;
}

/** Somebody asks again after a failure: by then it is told once, and begun anew. */
function forget(key: string, making: Making): void {
  setTimeout(() => lately.get(key) === making && lately.delete(key), 5000).unref();
}

async function make(
  print: EditionPrint,
  options: PrintOptions,
  pinnedBars: readonly number[],
  onProgress: (progress: number) => void,
): Promise<LaidOut> {
  try {
    return success(await layOutEdition(printInputOf(print, options, pinnedBars), onProgress));
  } catch (error) {
    if (!(error instanceof EngraveFailure)) throw error;
    return failure({ kind: "not-engraved", sentence: sayEngraveProblem(error.problem) });
  }
}
