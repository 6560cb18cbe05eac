import { readLimits } from "./limits";

/** Why nothing could be read from a file. */
export type ReadProblem =
  | { readonly kind: "empty-file" }
  | { readonly kind: "file-too-large"; readonly byteLength: number }
  | { readonly kind: "text-too-large" }
  | { readonly kind: "not-musicxml"; readonly looksLike: string | null }
  | {
      readonly kind: "not-well-formed";
      readonly line: number;
      readonly column: number;
      readonly fault: string;
    }
  | { readonly kind: "wrong-root"; readonly rootName: string }
  | { readonly kind: "encoding-unknown"; readonly encoding: string }
  | { readonly kind: "encoding-broken"; readonly encoding: string }
  | { readonly kind: "declarations-refused" }
  | { readonly kind: "too-deep"; readonly line: number }
  | { readonly kind: "too-many-elements" }
  | { readonly kind: "too-many-attributes"; readonly line: number }
  | { readonly kind: "token-too-long" }
  | { readonly kind: "container-broken" }
  | { readonly kind: "container-encrypted" }
  | {
      readonly kind: "container-unsafe";
      readonly reason: "too-many-entries" | "too-large" | "ratio" | "false-size";
    }
  | { readonly kind: "container-without-score"; readonly path: string | null }
  | { readonly kind: "no-parts" }
  | { readonly kind: "no-bars" }
  | { readonly kind: "too-many-parts" }
  | { readonly kind: "too-many-bars"; readonly partName: string }
  | { readonly kind: "too-many-notes" }
  | { readonly kind: "time-not-exact"; readonly partName: string | null; readonly barLabel: string | null };

const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;
const exportAgain = "Export it again as MusicXML from the notation program it comes from.";

const unsafeReasons = {
  "too-many-entries": `it holds more than ${readLimits.containerEntries} files`,
  "too-large": `it unpacks to more than ${megabytes(readLimits.textBytes)}`,
  ratio: "it unpacks to far more than any score of its size would",
  "false-size": "it unpacks to another size than it says",
} as const;

/** One or two sentences for the reader: what is wrong, where, and what to do. Plain text, never markup. */
export function sayReadProblem(problem: ReadProblem): string {
  switch (problem.kind) {
    case "empty-file":
      return `The file is empty. ${exportAgain}`;
    case "file-too-large":
      return `The file is ${megabytes(problem.byteLength)}; at most ${megabytes(readLimits.fileBytes)} are read. Export only this movement.`;
    case "text-too-large":
      return `The score is more than ${megabytes(readLimits.textBytes)} of text. Export only this movement.`;
    case "not-musicxml":
      return `This is ${problem.looksLike ?? "not a MusicXML file"}${problem.looksLike ? ", not MusicXML" : ""}. Choose a .musicxml, .xml or .mxl file.`;
    case "not-well-formed":
      return `The file is damaged or cut off at line ${problem.line}, column ${problem.column} (${problem.fault}). ${exportAgain}`;
    case "wrong-root":
      return `This is an XML file of another sort (“${short(problem.rootName)}”), not a MusicXML score. Choose a .musicxml, .xml or .mxl file.`;
    case "encoding-unknown":
      return `The file says its text is in “${short(problem.encoding)}”, which cannot be read. Export it as UTF-8.`;
    case "encoding-broken":
      return `The file says its text is in ${short(problem.encoding)}, but it is not. Export it as UTF-8.`;
    case "declarations-refused":
      return `The file brings its own document type declarations, which are not read for safety. ${exportAgain}`;
    case "too-deep":
      return `Elements are nested more than ${readLimits.depth} deep at line ${problem.line}, which no score needs. ${exportAgain}`;
    case "too-many-elements":
      return `The score has more than ${readLimits.nodes} elements. Export only this movement.`;
    case "too-many-attributes":
      return `An element at line ${problem.line} has more than ${readLimits.attributesPerElement} attributes, which no score needs. ${exportAgain}`;
    case "token-too-long":
      return `A single text or comment in the file is longer than ${readLimits.tokenCharacters} characters, which no score needs. ${exportAgain}`;
    default:
      return sayContainerOrScoreProblem(problem);
  }
}

type InSyntax =
  | "empty-file"
  | "file-too-large"
  | "text-too-large"
  | "not-musicxml"
  | "not-well-formed"
  | "wrong-root"
  | "encoding-unknown"
  | "encoding-broken"
  | "declarations-refused"
  | "too-deep"
  | "too-many-elements"
  | "too-many-attributes"
  | "token-too-long";

function sayContainerOrScoreProblem(problem: Exclude<ReadProblem, { kind: InSyntax }>): string {
  switch (problem.kind) {
    case "container-broken":
      return `The compressed file (.mxl) is damaged or cut off. ${exportAgain}`;
    case "container-encrypted":
      return "The compressed file (.mxl) is locked with a password. Save it without one.";
    case "container-unsafe":
      return `The compressed file (.mxl) is refused: ${unsafeReasons[problem.reason]}. ${exportAgain}`;
    case "container-without-score":
      return problem.path === null
        ? `The compressed file (.mxl) holds no score. ${exportAgain}`
        : `The compressed file (.mxl) names “${short(problem.path)}” as its score, but does not hold it. ${exportAgain}`;
    case "no-parts":
      return "The score has no part. Export it again with the solo and the piano part.";
    case "no-bars":
      return "The score has no bar. Export it again with the solo and the piano part.";
    case "too-many-parts":
      return `The score has more than ${readLimits.parts} parts. Export only the solo and the piano part.`;
    case "too-many-bars":
      return `Part “${short(problem.partName)}” has more than ${readLimits.bars} bars, or all parts together more than ${readLimits.measures}. Export only this movement.`;
    case "too-many-notes":
      return `The score has more than ${readLimits.notes} notes. Export only this movement.`;
    case "time-not-exact":
      return `Note lengths in ${placeOf(problem)} cannot be added up exactly (their “divisions” do not fit together). ${exportAgain}`;
  }
}

function placeOf(problem: { partName: string | null; barLabel: string | null }): string {
  const part = problem.partName === null ? "the score" : `part “${short(problem.partName)}”`;
  return problem.barLabel === null ? part : `${part}, bar ${short(problem.barLabel)}`;
}

/** Text of the file in a sentence: one line, of a length that a sentence can carry. */
function short(text: string): string {
  const line = text.replace(/\s+/g, " ").trim();
  return line.length > 60 ? `${line.slice(0, 59)}…` : line;
}
