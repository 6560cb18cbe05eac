import { successionFeatures } from "@/lib/cuts/join/succession-features";
import { areaUnderCurve, fitConditionalLogit } from "./conditional-logit";
import {
  readSuccessionPiece,
  type SuccessionPiece,
  successionFiles,
  thinOut,
  workOf,
} from "./succession-choices";

type Row = Record<string, string | number>;

const width = successionFeatures.length;
const most = 48;

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

const round = (value: number): number => Math.round(value * 10_000) / 10_000;

function fitWeights(pieces: readonly SuccessionPiece[], free?: boolean[]): Float64Array {
  const choices = pieces.flatMap((piece) => thinOut(piece.choices, most));
  return fitConditionalLogit(choices, width, free ? { free } : {});
}

const areaOf = ({ choices }: SuccessionPiece, weights: Float64Array): number =>
  mean(choices.map((choice) => areaUnderCurve(choice, weights)));

const kinds = ["orchestra", "song", "solo and piano"] as const;

/** Fitted on every second work, tried on the others, and the other way round. */
function measure(pieces: readonly SuccessionPiece[], free?: boolean[]) {
  const works = [...new Set(pieces.map(({ name }) => workOf(name)))];
  const halfOf = ({ name }: SuccessionPiece) => works.indexOf(workOf(name)) % 2;
  const weights = [0, 1].map((half) =>
    fitWeights(
      pieces.filter((piece) => halfOf(piece) !== half),
      free,
    ),
  );
  return pieces.map((piece) => ({ piece, area: areaOf(piece, weights[halfOf(piece)] as Float64Array) }));
}

type Measured = ReturnType<typeof measure>;

function meanOf(measured: Measured, kind: SuccessionPiece["kind"]): number {
  return round(mean(measured.filter(({ piece }) => piece.kind === kind).map(({ area }) => area)));
}

function writeTotals(what: string, measured: Measured): Row {
  return { what, ...Object.fromEntries(kinds.map((kind) => [kind, meanOf(measured, kind)])) };
}

let fitted: Record<string, number> = {};

/** The true next bar against all bars of the piece, with weights fitted on the other half of the works. */
export const benchmark = {
  name: "Succession: the true next bar among all bars of equal phase (area under the curve), weights from other works",
  async run(): Promise<Row[]> {
    const pieces = successionFiles()
      .map(readSuccessionPiece)
      .filter(({ choices }) => choices.length >= 8);
    const all = fitWeights(pieces);
    fitted = Object.fromEntries(successionFeatures.map((name, f) => [name, round(all[f] as number)]));
    const measured = measure(pieces);
    return [
      ...measured.map(({ piece, area }) => ({
        what: piece.name,
        bars: piece.choices.length,
        [piece.kind]: round(area),
      })),
      writeTotals("mean by piece", measured),
      ...successionFeatures.map((name) =>
        writeTotals(
          `without ${name}`,
          measure(
            pieces,
            successionFeatures.map((other) => other !== name),
          ),
        ),
      ),
      // Ties, slurs and hairpins go across a place, and are open at its edge on both sides.
      writeTotals(
        "without held, slurs and hairpin together",
        measure(
          pieces,
          successionFeatures.map((name) => !["held", "slurs", "hairpin"].includes(name)),
        ),
      ),
      writeTotals(
        "voice leading alone",
        measure(
          pieces,
          successionFeatures.map((_, f) => f < 5),
        ),
      ),
      writeTotals(
        "key and chord alone",
        measure(
          pieces,
          successionFeatures.map((name) => name === "key" || name === "association"),
        ),
      ),
    ];
  },
  details: () => ({ fitted }),
};
