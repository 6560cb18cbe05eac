import { checkRestAmount, type RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import { sumPerformed } from "@/lib/score/millisecond-clock";
import { cutRests, findRestsAt, measureRest, type RestReading } from "@/lib/score/rest-left";
import { partsOfABar } from "@/lib/score/silent-bars";

/** What has to be left of a silence; `barParts` in `partsOfABar`. */
export interface KeptRest {
  readonly milliseconds: number;
  readonly barParts: number;
}

export const nothingKept: KeptRest = { milliseconds: 0, barParts: 0 };

export const mostOfBoth = (a: KeptRest, b: KeptRest): KeptRest => ({
  milliseconds: Math.max(a.milliseconds, b.milliseconds),
  barParts: Math.max(a.barParts, b.barParts),
});

/** What a need asks for, in the units of the ground. */
export function amountOf(need: RestNeed): KeptRest {
  checkRestAmount(need);
  return "seconds" in need.needs
    ? { milliseconds: Math.round(1000 * need.needs.seconds), barParts: 0 }
    : { milliseconds: 0, barParts: Math.round(partsOfABar * need.needs.bars) };
}

/** A need with the silences it lies in, one for each time they are played. */
export interface PlacedNeed {
  readonly need: RestNeed;
  readonly amount: KeptRest;
  /** What is there when nothing is cut but what is agreed. */
  readonly silences: readonly (KeptRest & { readonly silence: number })[];
}

/** Finds the silences of the needs that hold; those that were released have none. */
export function placeNeeds(
  reading: RestReading,
  needs: readonly RestNeed[],
  agreed: readonly CutSpan[],
): PlacedNeed[] {
  const { score, order } = reading;
  const cut = agreed.length > 0 ? cutRests(reading, agreed) : null;
  const measure = (span: RestReading["silences"][number]): KeptRest =>
    cut
      ? measureRest(reading, cut, span)
      : {
          milliseconds: sumPerformed(score, order, reading.milliseconds, span),
          barParts: sumPerformed(score, order, reading.barParts, span),
        };
  return needs.map((need) => {
    const spans = need.releasedBy === null ? findRestsAt(reading, need) : [];
    const silences = spans.map((span) => {
      const { milliseconds, barParts } = measure(span);
      return { silence: reading.silences.indexOf(span), milliseconds, barParts };
    });
    return { need, amount: amountOf(need), silences };
  });
}

/**
 * What has to be left of each silence: the most that any need asks for. A need that the music does not grant, with no
 * cut but those that are agreed, forbids to take anything from its rest; it cannot forbid everything else.
 */
export function keepRests(placed: readonly PlacedNeed[]): Map<number, KeptRest> {
  const kept = new Map<number, KeptRest>();
  for (const { amount, silences } of placed) {
    for (const { silence, milliseconds, barParts } of silences) {
      const asked = {
        milliseconds: Math.min(amount.milliseconds, milliseconds),
        barParts: Math.min(amount.barParts, barParts),
      };
      kept.set(silence, mostOfBoth(kept.get(silence) ?? nothingKept, asked));
    }
  }
  return kept;
}
