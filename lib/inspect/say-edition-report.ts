import { shortHash } from "@/lib/edition/short-hash";
import { sayClock } from "@/lib/score/say-clock";
import type { EditionMusic, EditionReport, InspectedEdition } from "./edition-report";
import { plainLine } from "./plain-line";
import { sayMoment } from "./say-moment";

/** The report as lines of plain text for a terminal, control characters in the file's own text removed. */
export function sayEditionReport(report: EditionReport): string {
  const { piece, number, hash, music } = report;
  const title = [piece.title, piece.movement, piece.composer].filter((text) => text);
  return [
    `${title.join(" · ") || "(no title)"}, edition № ${number}`,
    hash,
    sayVerdict(report),
    ...section(
      "Checked",
      report.checks.flatMap(({ holds, sentences }) =>
        sentences.map((one) => `${holds ? "yes" : "NO "}  ${one}`),
      ),
    ),
    ...section("Running time", music ? [music.sentence] : ["cannot be told"]),
    ...section("Cuts", music ? sayCuts(music) : ["cannot be told"]),
    ...section("Breaths", music?.breaths ?? ["cannot be told"]),
    ...section("Cues", music?.cues ?? ["cannot be told"]),
    ...section("Rewrites", music?.rewrites ?? ["cannot be told"]),
    ...section("Printed comments", music?.remarks ?? ["cannot be told"]),
    ...section("Bars", music ? sayBars(music) : ["cannot be told"]),
    ...section("Editions", report.editions.flatMap(sayEdition)),
    ...section("Packed", [sayPacking(report)]),
  ]
    .map(keepIndent)
    .join("\n");
}

/** Nothing in a line draws on the terminal or ends it early. */
const keepIndent = (line: string) => `${/^ */.exec(line)?.[0] ?? ""}${plainLine(line)}`;

function section(heading: string, lines: readonly string[]): string[] {
  return [`${heading}:`, ...(lines.length > 0 ? lines : ["none"]).map((line) => `  ${line}`)];
}

function sayVerdict({ isWhole, checks, number, hash }: EditionReport): string {
  if (isWhole)
    return `Everything holds. Compare the hash above with your printed copy, which has ${shortHash(hash)} at the foot.`;
  const faults = checks.filter(({ holds }) => !holds).flatMap(({ sentences }) => sentences).length;
  const found = faults === 1 ? "One thing does" : `${faults} things do`;
  return `This is not edition № ${number} as it was exported. ${found} not hold.`;
}

function sayCuts({ cuts }: EditionMusic): string[] {
  return cuts.map(
    ({ name, savedSeconds }, index) => `${index + 1}. ${name}, ${sayClock(savedSeconds)} saved`,
  );
}

const shares = { whole: "played", part: "played in part", none: "left out" } as const;

function sayBars({ bars }: EditionMusic): string[] {
  return bars.map(
    ({ first, last, plays }) => `${first === last ? first : `${first}–${last}`} ${shares[plays]}`,
  );
}

function sayEdition(edition: InspectedEdition): string[] {
  const { number, hash, frozenAt, cutCount, runsSeconds, approvals, changes } = edition;
  const cuts = cutCount === 1 ? "1 cut" : `${cutCount} cuts`;
  const runs = runsSeconds === null ? "" : `, ${sayClock(runsSeconds)}`;
  return [
    `№ ${number}, ${shortHash(hash)}, frozen ${sayMoment(frozenAt)}, ${cuts}${runs}`,
    ...approvals.map(({ name, role, at }) => `    ${name} (${role}) approved it ${sayMoment(at)}`),
    ...(changes ?? ["What changed cannot be told."]).map((sentence) => `    ${sentence}`),
  ];
}

function sayPacking({ isAsPacked, isWhole, rendererVersion, seal }: EditionReport): string {
  const by =
    isAsPacked || !isWhole ? "" : " Another program packed these files; their contents are what was checked.";
  return `Seal ${seal}, pages by ${rendererVersion}.${by}`;
}
