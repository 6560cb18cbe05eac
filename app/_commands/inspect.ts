import { readFileSync } from "node:fs";
import { sayArchiveProblem } from "@/lib/edition/archive/archive-problem";
import type { RestNeed } from "@/lib/edition/rest-need";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { inspectCuts } from "@/lib/inspect/inspect-cuts";
import { inspectEdition } from "@/lib/inspect/inspect-edition";
import { inspectHands } from "@/lib/inspect/inspect-hands";
import { inspectPiece } from "@/lib/inspect/inspect-piece";
import { inspectSource } from "@/lib/inspect/inspect-source";
import { isEditionArchive, isPieceArchive } from "@/lib/inspect/is-edition-archive";
import { plainLine } from "@/lib/inspect/plain-line";
import { readRestNeeds } from "@/lib/inspect/read-rest-needs";
import { sayCutsReport } from "@/lib/inspect/say-cuts-report";
import { sayEditionReport } from "@/lib/inspect/say-edition-report";
import { sayHandsReport } from "@/lib/inspect/say-hands-report";
import { sayPieceReport, toPieceReport } from "@/lib/inspect/say-piece-report";
import { sayReport } from "@/lib/inspect/say-report";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { openStudy, type Study } from "@/lib/study/open-study";
import { defaultLongBars } from "@/lib/tutti/find-tuttis";
import { type InspectArguments, readInspectArguments } from "./inspect-arguments";

/** A sentence for the reader, and the exit code of a command that could not do its work. */
function fail(sentence: string): null {
  console.error(sentence);
  process.exitCode = 1;
  return null;
}

function readBytes(file: string): Uint8Array | null {
  try {
    return readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : null;
    return fail(
      code === "ENOENT" ? `There is no file ${file}.` : `The file ${file} cannot be read (${code ?? error}).`,
    );
  }
}

/**
 * `npm run -s inspect -- FILE [--json]`: what is in a score, for people, or as JSON for programs. With `--cuts` what can be cut
 * in it, to a limit and around needed rests when they are given; with `--hands` what does not lie under them, and what to
 * play instead. Of an exported edition, or a whole piece that was taken along: what it holds, and whether all
 * of it is as it was packed; ends with 1 when it is not.
 */
function run(args: readonly string[]): void {
  const read = readInspectArguments(args);
  if (typeof read === "string") {
    fail(read);
    return;
  }
  const bytes = readBytes(read.file);
  if (!bytes) return;
  if (isPieceArchive(bytes)) reportPiece(bytes, read);
  else if (isEditionArchive(bytes)) reportEdition(bytes, read);
  else if (read.cuts) reportCuts(bytes, read.cuts, read.asJson);
  else if (read.hands) reportHands(bytes, read.hands.pace, read.asJson);
  else report(bytes, read.asJson);
}

function report(bytes: Uint8Array, asJson: boolean): void {
  const inspected = inspectSource(bytes);
  if (!inspected.ok) fail(sayReadProblem(inspected.problem));
  else console.log(asJson ? JSON.stringify(inspected.value, null, 2) : sayReport(inspected.value));
}

function reportEdition(bytes: Uint8Array, { cuts, hands, asJson }: InspectArguments): void {
  if (cuts || hands) {
    fail(`This is an exported edition, which is agreed: ${cuts ? "--cuts" : "--hands"} is for a score.`);
    return;
  }
  const inspected = inspectEdition(bytes);
  if (!inspected.ok) {
    fail(plainLine(sayArchiveProblem(inspected.problem)));
    return;
  }
  const report = inspected.value;
  console.log(asJson ? JSON.stringify(report, null, 2) : sayEditionReport(report));
  if (!report.isWhole) process.exitCode = 1;
}

function reportPiece(bytes: Uint8Array, { cuts, hands, asJson }: InspectArguments): void {
  if (cuts || hands) {
    fail(`This is a whole piece that was taken along: ${cuts ? "--cuts" : "--hands"} is for a score.`);
    return;
  }
  const inspected = inspectPiece(bytes);
  if (!inspected.ok) {
    fail(inspected.problem.map(plainLine).join("\n"));
    return;
  }
  const report = toPieceReport(inspected.value);
  console.log(asJson ? JSON.stringify(report, null, 2) : sayPieceReport(report));
  if (!report.isWhole) process.exitCode = 1;
}

function reportCuts(
  bytes: Uint8Array,
  { limitSeconds, restsFile }: NonNullable<InspectArguments["cuts"]>,
  asJson: boolean,
): void {
  const study = open(bytes);
  if (!study) return;
  const needs = restsFile === null ? [] : readNeeds(restsFile, study);
  if (!needs) return;
  const search = inspectCuts(study, { limitSeconds, needs });
  let step = search.next();
  for (; !step.done; step = search.next()) showProgress(step.value.done / step.value.total);
  showProgress(null);
  console.log(asJson ? JSON.stringify(step.value, null, 2) : sayCutsReport(step.value));
}

function reportHands(bytes: Uint8Array, pace: number, asJson: boolean): void {
  const study = open(bytes);
  if (!study) return;
  if (!study.score.parts.some(({ role }) => role === "reduction")) {
    fail("No part of this file is a pianist's, so there are no hands to look at.");
    return;
  }
  const report = inspectHands(study, pace);
  console.log(asJson ? JSON.stringify(report, null, 2) : sayHandsReport(report));
}

function open(bytes: Uint8Array): Study | null {
  const study = openStudy(bytes, { partRoles: {}, tempo: printedTempo, longTuttiBars: defaultLongBars });
  return study.ok ? study.value : fail(sayReadProblem(study.problem));
}

function readNeeds(file: string, { score, map }: Study): RestNeed[] | null {
  const bytes = readBytes(file);
  if (!bytes) return null;
  const needs = readRestNeeds(new TextDecoder().decode(bytes), score, map);
  return needs.ok ? needs.value : fail(`${file}: ${needs.problem.sentence}`);
}

let shown = "";

/** On a terminal only, in one line that is taken away again. @param share null when all is done. */
function showProgress(share: number | null): void {
  if (!process.stderr.isTTY) return;
  const text = share === null ? "" : `Looking for cuts: ${Math.floor(100 * share)} %`;
  if (text === shown) return;
  process.stderr.write(`\r${text.padEnd(shown.length)}${text === "" ? "\r" : ""}`);
  shown = text;
}

run(process.argv.slice(2));
