import type { PartRole } from "@/lib/score/part";
import type { TempoBasis } from "@/lib/score/tempo-map";
import type { Tutti } from "@/lib/tutti/find-tuttis";

/** What was read from a source and what follows from it. Plain data; lengths of musical time as "7/2" quarters. */
export interface InspectReport {
  readonly title: string | null;
  readonly movement: string | null;
  readonly composer: string | null;
  readonly parts: readonly InspectedPart[];
  readonly bars: {
    readonly count: number;
    readonly firstLabel: string;
    readonly lastLabel: string;
    readonly hasPickup: boolean;
    /** Each metre where it begins. */
    readonly metres: readonly { readonly barLabel: string; readonly metre: string }[];
    readonly quarters: string;
  };
  readonly performed: { readonly order: string; readonly barCount: number; readonly quarters: string };
  readonly runningTime: {
    readonly seconds: number;
    readonly low: number;
    readonly high: number;
    readonly basis: Exclude<TempoBasis, "timed">;
    readonly sentence: string;
  };
  /** What the tempo map assumes, a sentence each, in the order of the score. */
  readonly assumptions: readonly string[];
  readonly tuttis: readonly InspectedTutti[];
  readonly notices: readonly InspectedNotice[];
}

export interface InspectedPart {
  readonly id: string;
  readonly name: string;
  readonly role: PartRole;
  readonly staffCount: number;
  readonly noteCount: number;
}

export interface InspectedTutti {
  readonly place: Tutti["place"];
  readonly firstBarLabel: string;
  readonly lastBarLabel: string;
  readonly barCount: number;
  readonly quarters: string;
  readonly seconds: number;
  readonly isLong: boolean;
  readonly basis: Tutti["evidence"]["basis"];
}

export interface InspectedNotice {
  readonly kind: string;
  readonly sentence: string;
  readonly partName: string | null;
  readonly barLabel: string | null;
}
