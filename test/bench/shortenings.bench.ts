import { listen } from "@/lib/cuts/join/listen";
import { signWeights } from "@/lib/cuts/search/join-worth";
import { areaUnderCurve, type Choice, fitConditionalLogit } from "./conditional-logit";
import { findShortenings, shorteningChoice, shorteningSigns } from "./shortening-choices";
import { readCorpusScore, successionFiles, workOf } from "./succession-choices";

type Row = Record<string, string | number>;

interface ShorteningPiece {
  readonly name: string;
  readonly isOrchestra: boolean;
  readonly choices: readonly Choice[];
}

const width = shorteningSigns.length;
/** More from one piece would make it speak for all. */
const mostOfOnePiece = 60;

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
const round = (value: number): number => Math.round(value * 1000) / 1000;

function readPiece(file: string): ShorteningPiece {
  const score = readCorpusScore(file);
  const heard = listen(score);
  const shortenings = findShortenings(heard);
  const step = Math.max(1, Math.ceil(shortenings.length / mostOfOnePiece));
  const choices = shortenings
    .filter((_, place) => place % step === 0)
    .flatMap((shortening) => shorteningChoice(heard, shortening) ?? []);
  return { name: file, isOrchestra: score.parts.length >= 6, choices };
}

function fitWeights(pieces: readonly ShorteningPiece[], free: boolean[]): Float64Array {
  return fitConditionalLogit(
    pieces.flatMap(({ choices }) => choices),
    width,
    { free },
  );
}

/** Percentiles of the composers' landings with weights fitted on the other half of the works. */
function measure(pieces: readonly ShorteningPiece[], free: boolean[]) {
  const works = [...new Set(pieces.map(({ name }) => workOf(name)))];
  const halfOf = ({ name }: ShorteningPiece) => works.indexOf(workOf(name)) % 2;
  const weights = [0, 1].map((half) =>
    fitWeights(
      pieces.filter((piece) => halfOf(piece) !== half),
      free,
    ),
  );
  return pieces.map((piece) => ({
    piece,
    percentiles: piece.choices.map((choice) =>
      areaUnderCurve(choice, weights[halfOf(piece)] as Float64Array),
    ),
  }));
}

function writeRow(what: string, measured: ReturnType<typeof measure>): Row {
  const of = (wanted: (piece: ShorteningPiece) => boolean) =>
    round(mean(measured.filter(({ piece }) => wanted(piece)).flatMap(({ percentiles }) => percentiles)));
  return {
    what,
    all: of(() => true),
    orchestra: of(({ isOrchestra }) => isOrchestra),
    others: of(({ isOrchestra }) => !isOrchestra),
    "mean of pieces": round(mean(measured.map(({ percentiles }) => mean(percentiles)))),
  };
}

/** As the search ranks, without its sign that needs a precedent: that is how the shortenings were found. */
function measureRanking(pieces: readonly ShorteningPiece[]) {
  const { hypermetre, phrase, key, smoothness } = signWeights;
  const weights = Float64Array.of(hypermetre, phrase, key, smoothness, 0);
  return pieces.map((piece) => ({
    piece,
    percentiles: piece.choices.map((choice) => areaUnderCurve(choice, weights)),
  }));
}

let fitted: Record<string, number> = {};

/** Where composers, coming back to a passage, leave bars out: their landing among all later bars. */
export const benchmark = {
  name: "Shortenings that composers make: mean percentile of the landing, weights from other works",
  async run(): Promise<Row[]> {
    const pieces = successionFiles()
      .map(readPiece)
      .filter(({ choices }) => choices.length > 0);
    const only = (wanted: (name: string) => boolean) => shorteningSigns.map(wanted);
    const weights = fitWeights(
      pieces,
      only(() => true),
    );
    fitted = Object.fromEntries(shorteningSigns.map((name, f) => [name, round(weights[f] as number)]));
    const count = pieces.reduce((sum, { choices }) => sum + choices.length, 0);
    return [
      { what: `${count} shortenings in ${pieces.length} pieces` },
      ...pieces.map(({ name, choices }) => ({ what: name, shortenings: choices.length })),
      writeRow(
        "all signs",
        measure(
          pieces,
          only(() => true),
        ),
      ),
      writeRow("as the search ranks", measureRanking(pieces)),
      ...shorteningSigns.map((name) =>
        writeRow(
          `without ${name}`,
          measure(
            pieces,
            only((other) => other !== name),
          ),
        ),
      ),
      ...shorteningSigns.map((name) =>
        writeRow(
          `${name} alone`,
          measure(
            pieces,
            only((other) => other === name),
          ),
        ),
      ),
    ];
  },
  details: () => ({ fitted }),
};
