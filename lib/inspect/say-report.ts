import { sayClock } from "@/lib/score/say-clock";
import type { InspectedNotice, InspectedPart, InspectedTutti, InspectReport } from "./inspect-report";
import { plainLine } from "./plain-line";

function sayPart({ name, role, staffCount, noteCount }: InspectedPart): string {
  const staves = staffCount === 1 ? "1 staff" : `${staffCount} staves`;
  const notes = noteCount === 1 ? "1 note" : `${noteCount} notes`;
  return `${role.padEnd(10)}${plainLine(name) || "(no name)"}, ${staves}, ${notes}`;
}

function sayBars({ bars }: InspectReport): string {
  const metres = bars.metres.map(({ barLabel, metre }, index) =>
    index === 0 ? metre : `${metre} from ${plainLine(barLabel)}`,
  );
  const shown = metres.length > 8 ? [...metres.slice(0, 8), `and ${metres.length - 8} more changes`] : metres;
  const upbeat = bars.hasPickup ? ", with an upbeat" : "";
  return `${bars.count} (${plainLine(bars.firstLabel)}–${plainLine(bars.lastLabel)}${upbeat}); ${shown.join(", ")}; ${bars.quarters} quarters`;
}

function sayTutti({
  place,
  firstBarLabel,
  lastBarLabel,
  barCount,
  quarters,
  seconds,
  isLong,
  basis,
}: InspectedTutti): string {
  const first = plainLine(firstBarLabel);
  const last = plainLine(lastBarLabel);
  const where = first === last ? `bar ${first}` : `bars ${first}–${last}`;
  const count = barCount === 1 ? "1 bar" : `${barCount} bars`;
  const marks = [isLong ? "long" : null, basis === "words" ? "by the words Tutti and Solo" : null];
  const remarks = marks.filter((mark) => mark !== null).map((mark) => `, ${mark}`);
  return `${place.padEnd(10)}${where}: ${count}, ${quarters} quarters, ${sayClock(seconds)}${remarks.join("")}`;
}

function sayNotice({ sentence, partName, barLabel }: InspectedNotice): string {
  const places = [
    partName === null ? null : plainLine(partName),
    barLabel === null ? null : `bar ${plainLine(barLabel)}`,
  ];
  const place = places.filter((name) => name !== null).join(", ");
  return place ? `${plainLine(sentence)} (${place})` : plainLine(sentence);
}

function section(heading: string, lines: readonly string[], whenEmpty: string): string[] {
  return [`${heading}:`, ...(lines.length > 0 ? lines : [whenEmpty]).map((line) => `  ${line}`)];
}

/** The report as lines of plain text for a terminal, control characters in the file's own text removed. */
export function sayReport(report: InspectReport): string {
  const { title, movement, composer, runningTime, performed } = report;
  const heading = [title, movement, composer].flatMap((text) => (text ? [plainLine(text)] : []));
  return [
    heading.join(" · ") || "(no title)",
    ...section("Parts", report.parts.map(sayPart), "none"),
    ...section("Bars", [sayBars(report)], "none"),
    ...section(
      "Played",
      [`${plainLine(performed.order)} (${performed.barCount} bars, ${performed.quarters} quarters)`],
      "none",
    ),
    ...section("Running time", [runningTime.sentence], "none"),
    ...section("Assumed", report.assumptions.map(plainLine), "nothing"),
    ...section("Tuttis", report.tuttis.map(sayTutti), "none"),
    ...section("Notices", report.notices.map(sayNotice), "none"),
  ].join("\n");
}
