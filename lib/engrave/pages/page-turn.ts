import { sayLeft } from "@/lib/score/say-seconds";
import type { TurnMoment } from "./assess-turn";
import { easySeconds, turnSeconds } from "./turn-strain";

/** What is printed at the foot of a page that is turned: turn at once (volti subito), or there is time. */
export type TurnSign = "V.S." | "time";

/** The turning of one page, with all that its judgement was computed from. */
export interface PageTurn {
  /** The page that is turned, from 1. */
  readonly page: number;
  /** The first bar of the next page, in the source. */
  readonly barId: string;
  readonly barLabel: string;
  /** When the page is turned: more than once where a repeat leads over it; never, where a jump leaves it out. */
  readonly moments: readonly TurnMoment[];
  /** Of the moment that has least; null when the page is never turned. */
  readonly freeSeconds: number | null;
  /** Bad below one second, quick below two, else easy. Common practice. */
  readonly grade: "easy" | "quick" | "bad";
  readonly sign: TurnSign | null;
  readonly cost: number;
  /** For the reader. */
  readonly sentence: string;
}

/** So long a silence after a turn is worth a word. Common practice. */
const longSilence = 5;

/** Judges the turning of a page. */
export function describeTurn(
  at: Pick<PageTurn, "page" | "barId" | "barLabel">,
  moments: readonly TurnMoment[],
): PageTurn {
  const hardest = moments.reduce<TurnMoment | null>(
    (least, moment) => (!least || moment.freeSeconds < least.freeSeconds ? moment : least),
    null,
  );
  const least = hardest?.freeSeconds ?? easySeconds;
  const grade = least < turnSeconds ? "bad" : least < easySeconds ? "quick" : "easy";
  const isLong = moments.length > 0 && moments.every(({ silenceAfter }) => silenceAfter >= longSilence);
  return {
    ...at,
    moments,
    freeSeconds: hardest?.freeSeconds ?? null,
    grade,
    sign: grade !== "easy" ? "V.S." : isLong ? "time" : null,
    cost: costOf(moments),
    sentence: sayTurn(at, moments, hardest),
  };
}

/** Of turning one page as often as the performance asks. */
export const costOf = (moments: readonly TurnMoment[]): number =>
  moments.reduce((sum, { cost }) => sum + cost, 0);

function sayTurn(
  { page, barLabel }: Pick<PageTurn, "page" | "barLabel">,
  moments: readonly TurnMoment[],
  hardest: TurnMoment | null,
): string {
  const place = `Page ${page}, before bar ${barLabel}`;
  if (!hardest) return `${place}: never turned in the order that is played.`;
  const often = moments.length > 1 ? `, the least of ${moments.length} times` : "";
  const hold = hardest.isAfterHold ? ", after a hold" : "";
  if (hardest.freeHand === null) {
    const who = hardest.hands.some(({ hand }) => hand === "player") ? "no rest" : "no hand free";
    return `${place}: ${who} to turn${hold}${often}.`;
  }
  const who = hardest.freeHand === "player" ? "a rest of" : `${hardest.freeHand} free for`;
  return `${place}: ${who} ${sayLeft(hardest.freeSeconds)}${hold}${often}.`;
}
