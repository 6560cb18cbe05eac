/** One choice: feature rows of the candidates, flat, and which of them was taken. */
export interface Choice {
  readonly rows: Float64Array;
  readonly taken: number;
}

/** Means over the alternatives weighted by probability, and how likely the taken one was. */
function explain(choice: Choice, weights: Float64Array, scores: Float64Array) {
  const width = weights.length;
  const count = choice.rows.length / width;
  let highest = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < count; row += 1) {
    let score = 0;
    for (let f = 0; f < width; f += 1)
      score += (weights[f] as number) * (choice.rows[row * width + f] as number);
    scores[row] = score;
    highest = Math.max(highest, score);
  }
  let sum = 0;
  for (let row = 0; row < count; row += 1) {
    scores[row] = Math.exp((scores[row] as number) - highest);
    sum += scores[row] as number;
  }
  return { count, sum };
}

/**
 * Weights that make the choices likeliest (conditional logit), by gradient ascent with momentum and a ridge; features
 * are scaled to unit spread first, and the weights scaled back.
 */
export function fitConditionalLogit(
  choices: readonly Choice[],
  width: number,
  { rounds = 150, ridge = 0.002, free = Array.from({ length: width }, () => true) } = {},
): Float64Array {
  const spread = spreadOf(choices, width);
  const scaled = choices.map(({ rows, taken }) => ({
    taken,
    rows: rows.map((value, place) => value / (spread[place % width] as number)),
  }));
  const most = Math.max(1, ...scaled.map(({ rows }) => rows.length / width));
  const scores = new Float64Array(most);
  const weights = new Float64Array(width);
  const [mean, square] = [new Float64Array(width), new Float64Array(width)];
  for (let round = 1; round <= rounds; round += 1) {
    const gradient = new Float64Array(width);
    for (const choice of scaled) {
      const { count, sum } = explain(choice, weights, scores);
      for (let f = 0; f < width; f += 1) {
        let expected = 0;
        for (let row = 0; row < count; row += 1)
          expected += (scores[row] as number) * (choice.rows[row * width + f] as number);
        gradient[f] =
          (gradient[f] as number) + (choice.rows[choice.taken * width + f] as number) - expected / sum;
      }
    }
    for (let f = 0; f < width; f += 1) {
      if (!free[f]) continue;
      const slope = (gradient[f] as number) / scaled.length - ridge * (weights[f] as number);
      mean[f] = 0.9 * (mean[f] as number) + 0.1 * slope;
      square[f] = 0.99 * (square[f] as number) + 0.01 * slope * slope;
      const [m, s] = [(mean[f] as number) / (1 - 0.9 ** round), (square[f] as number) / (1 - 0.99 ** round)];
      weights[f] = (weights[f] as number) + (0.05 * m) / (Math.sqrt(s) + 1e-8);
    }
  }
  return weights.map((weight, f) => weight / (spread[f] as number));
}

function spreadOf(choices: readonly Choice[], width: number): Float64Array {
  const [sum, squares] = [new Float64Array(width), new Float64Array(width)];
  let count = 0;
  for (const { rows } of choices) {
    for (let place = 0; place < rows.length; place += 1) {
      const value = rows[place] as number;
      sum[place % width] = (sum[place % width] as number) + value;
      squares[place % width] = (squares[place % width] as number) + value * value;
    }
    count += rows.length / width;
  }
  return squares.map((square, f) => {
    const average = (sum[f] as number) / count;
    return Math.sqrt(Math.max(square / count - average * average, 1e-6));
  });
}

/** How often the taken one scores higher than another candidate; equal scores count half. */
export function areaUnderCurve({ rows, taken }: Choice, weights: Float64Array): number {
  const width = weights.length;
  const score = (row: number) => {
    let sum = 0;
    for (let f = 0; f < width; f += 1) sum += (weights[f] as number) * (rows[row * width + f] as number);
    return sum;
  };
  const own = score(taken);
  const count = rows.length / width;
  let better = 0;
  for (let row = 0; row < count; row += 1) {
    if (row === taken) continue;
    const other = score(row);
    better += own > other + 1e-12 ? 1 : Math.abs(own - other) <= 1e-12 ? 0.5 : 0;
  }
  return count > 1 ? better / (count - 1) : 1;
}
