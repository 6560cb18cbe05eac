import type { Direction } from "@/lib/score/direction";
import type { Part } from "@/lib/score/part";
import {
  compareQuarters,
  type Quarters,
  quartersAsNumber,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";

/** Velocity of a forte where nothing else is said. Source: MusicXML 4.0, `sound`, attribute `dynamics`. */
const forteVelocity = 90;

/**
 * Loudness of the printed signs in percent of `forteVelocity`, as MusicXML writes it in `sound dynamics`. Source: the
 * number that real scores give most often beside each sign, counted in 40 of them (pp 138 times, p 367, mp 24, mf 34, f 308,
 * ff 159); beyond ppp and fff the steps are our choice.
 */
const signPercent: Readonly<Record<string, number>> = {
  ...{ n: 2, pppppp: 4, ppppp: 6, pppp: 11, ppp: 17.78, pp: 36.67, p: 54.44, mp: 71.11 },
  ...{ mf: 88.89, f: 106.67, ff: 124.44, fff: 140, ffff: 141, fffff: 141, ffffff: 141, pf: 88.89 },
};

/** Signs for the notes at one place only, and what holds after them. Source of the percent: as above (fz 427 times). */
const attackSigns: Readonly<Record<string, { readonly percent: number; readonly after: string | null }>> = {
  ...{ sf: { percent: 124.44, after: null }, sfz: { percent: 124.44, after: null } },
  ...{ fz: { percent: 124.44, after: null }, sffz: { percent: 140, after: null } },
  ...{ rf: { percent: 115, after: null }, rfz: { percent: 115, after: null } },
  ...{ fp: { percent: 106.67, after: "p" }, sfp: { percent: 124.44, after: "p" } },
  ...{ sfpp: { percent: 124.44, after: "pp" }, sfzp: { percent: 124.44, after: "p" } },
};

/** Before any sign: mezzo forte. Common practice. */
const unmarkedPercent = 88.89;
/** One step from sign to sign, as between p, mp, mf, f and ff: how far a hairpin goes that leads to no sign. */
const stepPercent = 17.78;

interface Level {
  readonly onset: Quarters;
  readonly percent: number;
  /** A hairpin: the loudness reached, and where. */
  readonly to: { readonly onset: Quarters; readonly percent: number } | null;
}

/** Loudness of a part along its page. */
export interface Loudness {
  /** Velocity of a note by its written onset, 1 to 127. @param strength a factor of its own, such as that of an accent. */
  velocityAt(onset: Quarters, strength: number): number;
}

type Dynamic = Extract<Direction, { kind: "dynamic" }>;
type Wedge = Extract<Direction, { kind: "wedge" }>;

/** Reads the printed loudness of a part: signs, hairpins, sforzati. Words such as "cresc." do nothing. */
export function readLoudness(part: Pick<Part, "directions">): Loudness {
  const signs = part.directions.filter((direction): direction is Dynamic => direction.kind === "dynamic");
  const wedges = part.directions.filter((direction): direction is Wedge => direction.kind === "wedge");
  const levels = layHairpins(layLevels(signs), wedges);
  const attacks = new Map(
    signs.flatMap(({ onset, mark }) => {
      const attack = attackSigns[mark];
      return attack ? [[writeQuarters(onset), attack.percent] as const] : [];
    }),
  );
  return {
    velocityAt(onset, strength) {
      const percent = Math.max(percentAt(levels, onset), attacks.get(writeQuarters(onset)) ?? 0);
      const velocity = Math.round((percent / 100) * forteVelocity * strength);
      return Math.min(Math.max(velocity, 1), 127);
    },
  };
}

function layLevels(signs: readonly Dynamic[]): Level[] {
  return signs.flatMap(({ onset, mark }) => {
    const percent = signPercent[mark] ?? signPercent[attackSigns[mark]?.after ?? ""];
    return percent === undefined ? [] : [{ onset, percent, to: null }];
  });
}

/** Each hairpin leads to the sign at its end, or one step up or down. */
function layHairpins(levels: readonly Level[], wedges: readonly Wedge[]): Level[] {
  const laid = [...levels];
  for (const [index, wedge] of wedges.entries()) {
    if (wedge.type !== "crescendo" && wedge.type !== "diminuendo") continue;
    const end = wedges
      .slice(index + 1)
      .find(({ type, number }) => type === "stop" && number === wedge.number);
    if (!end || compareQuarters(end.onset, wedge.onset) <= 0) continue;
    const from = percentAt(laid, wedge.onset);
    const direction = wedge.type === "crescendo" ? 1 : -1;
    const sign = levels.find(({ onset }) => compareQuarters(onset, end.onset) >= 0);
    const leadsTo =
      sign && isSoonAfter(end.onset, sign.onset) ? sign.percent : from + direction * stepPercent;
    // A sign that contradicts its hairpin begins something new.
    const reached = Math.sign(leadsTo - from) === direction ? leadsTo : from + direction * stepPercent;
    const percent = Math.max(reached, 6);
    laid.push({ onset: wedge.onset, percent: from, to: { onset: end.onset, percent } });
    laid.sort((a, b) => compareQuarters(a.onset, b.onset));
  }
  return laid;
}

/** A sign is often set a little behind the end of its hairpin. */
const isSoonAfter = (end: Quarters, sign: Quarters) => quartersAsNumber(subtractQuarters(sign, end)) <= 1;

function percentAt(levels: readonly Level[], onset: Quarters): number {
  const level = levels.findLast((candidate) => compareQuarters(candidate.onset, onset) <= 0);
  if (!level) return unmarkedPercent;
  if (level.to === null) return level.percent;
  const length = quartersAsNumber(subtractQuarters(level.to.onset, level.onset));
  const gone = Math.min(1, quartersAsNumber(subtractQuarters(onset, level.onset)) / length);
  return level.percent + (level.to.percent - level.percent) * gone;
}
