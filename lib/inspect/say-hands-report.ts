import { sayBarCount } from "@/lib/score/say-bar-count";
import type { InspectedHands, InspectedPassage } from "./hands-report";
import { plainLine } from "./plain-line";

/** The report for people, in lines. */
export function sayHandsReport(report: InspectedHands): string {
  const { title, pace, playedBars, awkwardBars, notPlayableBars, passages } = report;
  const tempo = pace === 1 ? "at the tempo as read" : `at ${Math.round(100 * pace)} % of the tempo`;
  return [
    ...(title === null ? [] : [plainLine(title)]),
    `Usual hands (a ninth with ease, a tenth when it must be), ${tempo}: of ${sayBarCount(playedBars)} ${awkwardBars} awkward, ${notPlayableBars} not playable as printed.`,
    ...passages.flatMap(sayPassage),
  ].join("\n");
}

function sayPassage(passage: InspectedPassage): string[] {
  const { fromLabel, toLabel, verdict, difficulty, sentence, isEasyWhenShared, comfortablePace, rewrites } =
    passage;
  const name = fromLabel === toLabel ? `Bar ${fromLabel}` : `Bars ${fromLabel}–${toLabel}`;
  const slower =
    comfortablePace > 0 && comfortablePace < 1
      ? [`Comfortable up to ${Math.floor(100 * comfortablePace)} % of the tempo.`]
      : [];
  return [
    "",
    `${plainLine(name)}: ${isEasyWhenShared ? "awkward as printed, easy when shared otherwise" : verdict} (${difficulty})`,
    ...[sentence, ...slower].map((line) => `   ${plainLine(line)}`),
    ...rewrites.map((rewrite, index) => `   ${index + 1}. ${sayRewrite(rewrite)}`),
  ];
}

function sayRewrite({
  words,
  difficultyBefore,
  difficultyAfter,
  kept,
  losesGraceNotes,
}: InspectedPassage["rewrites"][number]): string {
  const lost = [
    sayLost("bass", kept.bass),
    sayLost("top line", kept.topLine),
    sayLost("harmony", kept.harmony),
    sayLost("accents", kept.accents),
    sayLost("rhythm", kept.rhythm),
    ...(losesGraceNotes ? ["without its grace notes"] : []),
  ].filter((each) => each !== null);
  const what = lost.length === 0 ? "bass, top line, harmony and rhythm as printed" : lost.join(", ");
  return `${plainLine(words)}: ${difficultyBefore} to ${difficultyAfter}; ${what}`;
}

function sayLost(what: string, { kept, of }: { kept: number; of: number }): string | null {
  return kept === of ? null : `${what} ${kept} of ${of}`;
}
