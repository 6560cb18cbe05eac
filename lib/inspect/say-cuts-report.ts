import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { sayLeft, sayMissing } from "@/lib/score/say-seconds";
import type {
  CutsReport,
  ReportedCut,
  ReportedNeed,
  ReportedPlan,
  ReportedSet,
  ReportedTutti,
} from "./cuts-report";
import { plainLine } from "./plain-line";

const grades = { clean: "clean", "needs-a-touch": "needs a touch", rough: "rough" } as const;

const indent = (lines: readonly string[]) => lines.map((line) => `   ${line}`);

/** "Rest before C: 1:52, and 1:36 with the cut." Short ones in seconds, as players count them. */
function sayRest({ rest }: ReportedCut): string[] {
  if (!rest) return [];
  const say = (seconds: number) => (seconds < 60 ? sayLeft(seconds) : sayClock(seconds));
  const where = rest.nextEntry === null ? "at the end" : `before ${plainLine(rest.nextEntry)}`;
  const [before, after] = [say(rest.beforeSeconds), say(rest.afterSeconds)];
  if (before === after) return [`The soloist's rest ${where} stays: ${before}.`];
  return [`The soloist's rest ${where}: ${before}, with the cut ${after}.`];
}

const sayRobbed = ({ robs }: ReportedCut) =>
  robs.map(({ sentence }) => `TAKES A NEEDED REST. ${plainLine(sentence)}`);

function sayHead(cut: ReportedCut, name: string, nameWidth: number): string {
  const saves = `saves ${sayClock(cut.savedSeconds)}`;
  return `${name.padEnd(nameWidth)}  ${saves}  ${grades[cut.grade]}`;
}

const cutName = (cut: ReportedCut) => plainLine(cut.name);
const startName = (cut: ReportedCut) => `start at bar ${plainLine(cut.to.barLabel)}`;

function sayAlso({ alsoAt }: ReportedCut): string[] {
  if (alsoAt.length === 0) return [];
  const [shown, more] = [alsoAt.slice(0, 3).map(plainLine), alsoAt.length - 3];
  return [`Comes to the same: ${shown.join("; ")}${more > 0 ? `; and ${more} more` : ""}.`];
}

function sayDetails(cut: ReportedCut): string[] {
  return [
    ...sayRobbed(cut),
    ...cut.reasons.map(plainLine),
    ...(cut.better ? [plainLine(cut.better.sentence)] : []),
    ...(cut.toWrite.length > 0 ? [`To write: ${cut.toWrite.map(plainLine).join(" ")}`] : []),
    ...sayRest(cut),
    ...sayAlso(cut),
  ];
}

function sayList(
  cuts: readonly ReportedCut[],
  nameOf: (cut: ReportedCut) => string,
  say: (cut: ReportedCut) => readonly string[],
): string[] {
  const width = Math.max(0, ...cuts.map((cut) => nameOf(cut).length));
  return cuts.flatMap((cut, index) => [
    `${index + 1}. ${sayHead(cut, nameOf(cut), width)}`,
    ...indent(say(cut)),
  ]);
}

const places = { opening: "opening", interlude: "interlude", closing: "closing" } as const;

function sayTuttiHead({ place, firstBarLabel, lastBarLabel, barCount, seconds }: ReportedTutti): string {
  const [first, last] = [plainLine(firstBarLabel), plainLine(lastBarLabel)];
  const bars = first === last ? `Bar ${first}` : `Bars ${first}–${last}`;
  return `${bars}, ${places[place]}: ${sayBarCount(barCount)}, ${sayClock(seconds)}`;
}

function sayTutti(tutti: ReportedTutti): string[] {
  // The first reason says the most; a short tutti is seldom worth more of the page.
  const say = tutti.isLong
    ? sayDetails
    : (cut: ReportedCut) => [...sayRobbed(cut), ...cut.reasons.slice(0, 1).map(plainLine)];
  const starts =
    tutti.starts.length === 0
      ? []
      : ["Places to start at:", ...indent(sayList(tutti.starts, startName, say))];
  const cuts = tutti.cuts.length === 0 ? ["No cut worth its mark."] : sayList(tutti.cuts, cutName, say);
  return [sayTuttiHead(tutti), ...indent(cuts), ...indent(starts), ""];
}

function sayNeeds(needs: readonly ReportedNeed[]): string[] {
  return needs.map(({ sentence }) => plainLine(sentence));
}

/** What is left out, and where the piece then begins when that is at its start. */
function nameOf({ name, from, to }: ReportedSet["cuts"][number]): string {
  const isFromStart = from.barIndex === 0 && from.offset === "0";
  return isFromStart ? `${plainLine(name)}, to start at bar ${plainLine(to.barLabel)}` : plainLine(name);
}

/** The numbers are a floor: a set that meets its limit by them only may run over on stage. */
function sayOnStage({ low, high, sentence }: ReportedSet["runningTime"], limitSeconds: number): string[] {
  if (high <= limitSeconds) return [sentence];
  const over = low > limitSeconds ? "will run over" : "may run over";
  return [sentence, `On stage that ${over} ${sayClock(limitSeconds)}: plan for less, or time yourselves.`];
}

function saySet({ cuts, needs, runningTime }: ReportedSet, limitSeconds: number): string[] {
  const width = Math.max(0, ...cuts.map((cut) => nameOf(cut).length));
  const lines = cuts.flatMap((cut) => {
    const { savedSeconds, grade, reasons } = cut;
    return [
      `${nameOf(cut).padEnd(width)}  saves ${sayClock(savedSeconds)}  ${grades[grade]}`,
      ...indent(reasons.slice(0, 1).map(plainLine)),
    ];
  });
  return [...lines, ...sayNeeds(needs), ...sayOnStage(runningTime, limitSeconds)];
}

const sayShortly = ({ cuts, runsSeconds }: ReportedSet): string => {
  const names = cuts.map((cut) => `${nameOf(cut)} (${grades[cut.grade]})`);
  return `${sayClock(runsSeconds)}: ${names.length > 0 ? `without ${names.join("; ")}` : "with everything"}`;
};

function sayObstacles({ obstacles }: ReportedPlan): string[] {
  return obstacles.map(({ why, unit, left, shortBy, set }) => {
    const stays = unit === "seconds" ? sayLeft(left) : sayBarCount(left);
    const short = unit === "seconds" ? sayMissing(shortBy) : sayBarCount(shortBy);
    return `With ${stays} of rest (${plainLine(why)}), ${short} less than needed, it would fit. ${sayShortly(set)}`;
  });
}

function sayPlan(plan: ReportedPlan): string[] {
  const { limitSeconds, sentence, best, runnersUp, shortest } = plan;
  const others = runnersUp.length === 0 ? [] : ["Other sets that fit:", ...indent(runnersUp.map(sayShortly))];
  const canBeShorter = shortest.cuts.length > 0 && shortest.runsSeconds < (best?.runsSeconds ?? Infinity);
  return [
    `Plan for ${sayClock(limitSeconds)}:`,
    ...indent([
      ...(plan.candidateCount === 0 ? ["No cut was found that is not heard as a break."] : []),
      plainLine(sentence),
      ...(best ? saySet(best, limitSeconds) : sayObstacles(plan)),
      ...others,
      ...(canBeShorter ? [`The shortest set: ${sayShortly(shortest)}`] : []),
    ]),
    "",
  ];
}

function sayTuttis({ tuttis, soloist, shortTuttiCount }: CutsReport): string[] {
  if (soloist === null) return ["No part is the soloist's, so there are no tuttis to cut.", ""];
  if (tuttis.length === 0) return ["No tutti is long enough to be cut: 4 bars is the least.", ""];
  const longFirst = [...tuttis.filter(({ isLong }) => isLong), ...tuttis.filter(({ isLong }) => !isLong)];
  const passed = shortTuttiCount === 1 ? "One tutti is" : `${shortTuttiCount} tuttis are`;
  const rest = shortTuttiCount > 0 ? [`${passed} shorter than 4 bars and not looked at.`, ""] : [];
  return [...longFirst.flatMap(sayTutti), ...rest];
}

function sayAssumptions(count: number): string[] {
  if (count === 0) return [];
  const things = count === 1 ? "One thing about the tempo is" : `${count} things about the tempo are`;
  return [`${things} assumed in all times here; without --cuts the command lists them.`];
}

/** The report as lines of plain text for a terminal. */
export function sayCutsReport(report: CutsReport): string {
  const { title, movement, composer, runningTime, assumptions, needs, plan } = report;
  const heading = [title, movement, composer].flatMap((text) => (text ? [plainLine(text)] : []));
  return [
    heading.join(" · ") || "(no title)",
    `Running time: ${runningTime.sentence}`,
    ...sayAssumptions(assumptions.length),
    "",
    ...sayTuttis(report),
    ...(needs.length > 0 ? ["Needed rests, with nothing cut:", ...indent(sayNeeds(needs)), ""] : []),
    ...(plan ? sayPlan(plan) : []),
  ]
    .join("\n")
    .trimEnd();
}
