import { hashText } from "@/lib/edition/hash-terms";
import { assessHands, type HandsReport } from "@/lib/hands/assess-hands";
import { barAtTempo, comfortablePace } from "@/lib/hands/at-tempo";
import { type AwkwardPassage, findPassages } from "@/lib/hands/find-passages";
import { usualHands } from "@/lib/hands/hands-profile";
import { sayStrain } from "@/lib/hands/say-strain";
import type { Study } from "@/lib/study/open-study";
import { rewritePassage } from "@/lib/study/rewrite-passage";
import type { InspectedHands, InspectedPassage } from "./hands-report";

/**
 * Where the pianist's part does not lie under usual hands, and what could be played instead.
 *
 * @param pace share of the tempo as read, 1 for that tempo.
 */
export function inspectHands(study: Study, pace: number): InspectedHands {
  const report = assessHands(study.score, study.map, usualHands);
  const bars = report.bars.map((bar) => barAtTempo(bar, pace));
  const count = (verdict: string) => bars.filter((bar) => bar.verdict === verdict).length;
  return {
    title: study.score.title,
    pace,
    playedBars: bars.filter(({ printed }) => printed !== null).length,
    awkwardBars: count("awkward"),
    notPlayableBars: count("not playable"),
    passages: findPassages(bars).map((passage) => tellPassage(study, report, passage, pace)),
  };
}

function tellPassage(
  study: Study,
  report: HandsReport,
  passage: AwkwardPassage,
  pace: number,
): InspectedPassage {
  const { score, map } = study;
  const { fromBar, toBar, verdict, difficulty, hand, strain, isEasyWhenShared } = passage;
  const offers = rewritePassage({
    ...{ score, map, fromBar, toBar, pace, hands: report.hands, demands: report.bars },
    // Nothing is kept: the terms only need some source.
    sourceHash: hashText(""),
  });
  const paces = report.bars.slice(fromBar, toBar + 1).map(comfortablePace);
  return {
    ...{ fromBar, toBar, verdict, difficulty, hand, isEasyWhenShared },
    fromLabel: score.bars[fromBar]?.label ?? "",
    toLabel: score.bars[toBar]?.label ?? "",
    sentence: sayStrain(strain),
    comfortablePace: Math.round(Math.min(1000, ...paces) * 1000) / 1000,
    rewrites: offers.map(({ terms, difficultyBefore, difficultyAfter, fidelity, losesGraceNotes }) => ({
      ...{ words: terms.words, difficultyBefore, difficultyAfter, losesGraceNotes },
      kept: fidelity,
    })),
  };
}
