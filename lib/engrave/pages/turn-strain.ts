import type { HandAtTurn } from "./assess-turn";

/** Turning a page takes about so long, in seconds. Common practice. */
export const turnSeconds = 1;
/** With so long nobody hurries. Common practice. */
export const easySeconds = 2;
/** What a turn costs for which no hand is free at all; other costs are weighed against it. */
export const worstTurn = 100;
const quickTurn = 10;
/** Of the time in which a hand rests on the new page while another plays there from memory. */
const memoryShare = 0.4;
/** A hold gives time to look, lift and turn out of time. */
const holdShare = 0.5;

/**
 * The cost of one turn: 0 for the free hand of two seconds, 10 for one second, rising to 100 where no hand is free; half a
 * turn's time is little better than none. A hand
 * that is free only on the new page, while the other plays there already, counts for a little: the player must know the
 * first notes by heart. A turn right after a hold costs half. Source of the figures: common practice, weighed by eye.
 */
export function turnStrain(hands: readonly HandAtTurn[], isAfterHold: boolean): number {
  const strains = hands.map(({ freeBefore, freeAfter, freeSeconds }) => {
    const byHeart = Math.min(turnSeconds, freeBefore + freeAfter) - Math.min(turnSeconds, freeSeconds);
    return strainOf(freeSeconds + memoryShare * byHeart);
  });
  return Math.min(...strains, worstTurn) * (isAfterHold ? holdShare : 1);
}

function strainOf(seconds: number): number {
  if (seconds >= easySeconds) return 0;
  if (seconds >= turnSeconds) return (quickTurn * (easySeconds - seconds)) / (easySeconds - turnSeconds);
  return quickTurn + (worstTurn - quickTurn) * (1 - (seconds / turnSeconds) ** 2);
}
