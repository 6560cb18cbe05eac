import type { Position } from "@/lib/score/position";

/** Why a soloist needs a rest. Words of the player's own are welcome. */
export type RestReason =
  | "breath"
  | "lip"
  | "mute"
  | "instrument change"
  | "pitch"
  | "rest"
  | (string & Record<never, never>);

/** How long: seconds at the duo's tempi, or bars as players count rests. */
export type RestAmount = { readonly seconds: number } | { readonly bars: number };

/** How long the soloist must be silent here, and why. */
export interface RestNeed {
  readonly id: string;
  /** The rest it lies in, or a part of it. Positions of the written order, end exclusive. */
  readonly from: Position;
  readonly to: Position;
  readonly needs: RestAmount;
  readonly why: RestReason;
  /** Who has let it go, by id: it is still shown and no longer kept. Null while it holds. */
  readonly releasedBy: string | null;
}

/** @throws RangeError if the need asks for no length of time. */
export function checkRestAmount(need: RestNeed): void {
  const amount = "seconds" in need.needs ? need.needs.seconds : need.needs.bars;
  if (!(Number.isFinite(amount) && amount >= 0)) {
    throw new RangeError(`Not an amount of rest in the need ${need.id}: ${amount}`);
  }
}
