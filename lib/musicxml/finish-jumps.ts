import type { BarJumps } from "@/lib/score/bar";
import { noJumps } from "@/lib/score/bar";
import { compareQuarters } from "@/lib/score/quarters";
import type { PlacedBar } from "./finish-bars";
import type { NoticeBook } from "./notice-book";
import type { Draft, JumpSign, ScoreDraft } from "./score-draft";

const sources: readonly JumpSign["source"][] = ["sound", "words", "sign"];

/**
 * Gives each bar its jump marks. `sound` elements count first, then printed words ("D.S. al Coda"), then printed signs.
 * A segno or coda at the very end of a bar belongs to the next one. Of several coda signs that nothing explains, the
 * first is where the coda is left for.
 */
export function fillJumps(bars: readonly PlacedBar[], score: ScoreDraft, notices: NoticeBook): void {
  const found = bars.map((): JumpSign[] => []);
  for (const bar of bars) {
    for (const sign of score.barAt(bar.index).jumps) found[indexOf(sign, bar, bars.length)]?.push(sign);
  }
  explainCodaSigns(found);
  for (const bar of bars) {
    const signs = found[bar.index] ?? [];
    if (signs.length > 0) bar.jumps = jumpsOf(signs);
    tellPrinted(signs, bar, notices);
  }
}

function indexOf(sign: JumpSign, bar: PlacedBar, barCount: number): number {
  const isTarget = sign.kind === "segno" || sign.kind === "coda";
  const isAtEnd = sign.offset.num > 0 && compareQuarters(sign.offset, bar.length) >= 0;
  return isTarget && isAtEnd && bar.index + 1 < barCount ? bar.index + 1 : bar.index;
}

function explainCodaSigns(found: JumpSign[][]): void {
  const all = found.flat();
  if (all.some(({ kind, source }) => kind === "toCoda" || (kind === "coda" && source !== "sign"))) return;
  const withCoda = found.filter((signs) => signs.some(({ kind }) => kind === "coda"));
  const first = withCoda[0];
  if (!first || withCoda.length < 2) return;
  first.forEach((sign, at) => {
    if (sign.kind === "coda") first[at] = { ...sign, kind: "toCoda" };
  });
}

function jumpsOf(signs: readonly JumpSign[]): BarJumps {
  const jumps: Draft<BarJumps> = { ...noJumps };
  for (const source of sources) {
    for (const { kind, name } of signs.filter((sign) => sign.source === source)) {
      if (kind === "daCapo" || kind === "fine") jumps[kind] = true;
      else jumps[kind] ??= name;
    }
  }
  return jumps;
}

function tellPrinted(signs: readonly JumpSign[], bar: PlacedBar, notices: NoticeBook): void {
  const isMeant = (kind: JumpSign["kind"]) =>
    signs.some((sign) => sign.kind === kind && sign.source === "sound");
  for (const { kind, source } of signs) {
    if (source === "sound" || kind === "segno" || kind === "coda" || isMeant(kind)) continue;
    const sentence = `The order of playing follows what is printed here (${sayKind[kind]}); the file itself does not say it.`;
    notices.add("jump-from-print", sentence, null, bar.label);
  }
}

const sayKind: Readonly<Record<keyof BarJumps, string>> = {
  segno: "segno",
  coda: "coda",
  toCoda: "to coda",
  dalSegno: "D.S.",
  daCapo: "D.C.",
  fine: "Fine",
};
