import type { Bar } from "@/lib/score/bar";
import type { Notice } from "@/lib/score/notice";
import type { Part } from "@/lib/score/part";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { pieceLength } from "@/lib/score/piece-length";
import { writeQuarters } from "@/lib/score/quarters";
import { findRunningTime } from "@/lib/score/running-time";
import { sayOrder } from "@/lib/score/say-order";
import type { ReadScore } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { findTuttis, type Tutti } from "@/lib/tutti/find-tuttis";
import type { InspectedNotice, InspectedPart, InspectedTutti, InspectReport } from "./inspect-report";
import { sayMetre } from "./say-metre";

/** Clock times in the report, to the millisecond: more digits would be noise. */
const roundSeconds = (time: number): number => Math.round(time * 1000) / 1000;

function inspectPart({ id, name, role, staffCount, notes }: Part): InspectedPart {
  return { id, name, role, staffCount, noteCount: notes.length };
}

function findMetres(bars: readonly Bar[]): InspectReport["bars"]["metres"] {
  const metres: { barLabel: string; metre: string }[] = [];
  for (const bar of bars) {
    const metre = sayMetre(bar.metre);
    if (metres.at(-1)?.metre !== metre) metres.push({ barLabel: bar.label, metre });
  }
  return metres;
}

function inspectTutti(tutti: Tutti): InspectedTutti {
  const { place, firstBarLabel, lastBarLabel, barCount, isLong, evidence } = tutti;
  return {
    place,
    firstBarLabel,
    lastBarLabel,
    barCount,
    quarters: writeQuarters(tutti.quarters),
    seconds: roundSeconds(tutti.seconds),
    isLong,
    basis: evidence.basis,
  };
}

const inspectNotice = ({ kind, sentence, partName, barLabel }: Notice): InspectedNotice => {
  return { kind, sentence, partName, barLabel };
};

/** Everything that can be told about a score before anyone has decided anything about it. */
export function inspectScore({ score, notices }: ReadScore): InspectReport {
  const order = findPerformedOrder(score);
  const map = readTempoMap(score);
  const running = findRunningTime(score, order, map);
  return {
    title: score.title,
    movement: score.movement,
    composer: score.composer,
    parts: score.parts.map(inspectPart),
    bars: {
      count: score.bars.length,
      firstLabel: score.bars[0]?.label ?? "",
      lastLabel: score.bars.at(-1)?.label ?? "",
      hasPickup: score.bars[0]?.isPickup ?? false,
      metres: findMetres(score.bars),
      quarters: writeQuarters(pieceLength(score)),
    },
    performed: {
      order: sayOrder(score, order),
      barCount: order.bars.length,
      quarters: writeQuarters(order.length),
    },
    runningTime: {
      seconds: roundSeconds(running.seconds),
      low: roundSeconds(running.low),
      high: roundSeconds(running.high),
      basis: running.basis,
      sentence: running.sentence,
    },
    assumptions: map.assumptions.map(({ sentence }) => sentence),
    tuttis: findTuttis(score, order, map).map(inspectTutti),
    notices: [...notices, ...order.notices].map(inspectNotice),
  };
}
