/** The cuts of a set, as it was put together. */
type CutTree = null | number | readonly [CutTree, CutTree];

/** A set of cuts that nothing beats: cheaper sets save less. */
export interface Choice {
  readonly savedMilliseconds: number;
  /** In thousandths. */
  readonly cost: number;
  readonly count: number;
  /** Indices of the caller's candidates; read them with `listCuts`. */
  readonly cuts: CutTree;
}

export const noCuts: Choice = { savedMilliseconds: 0, cost: 0, count: 0, cuts: null };

/** From the least saved and cheapest up: no other set saves as much for less. */
export type Choices = readonly Choice[];

/** "Play everything", and nothing else to choose. */
export const onlyNoCuts: Choices = [noCuts];

/** Indices of the candidates of a set, in order. */
export function listCuts({ cuts }: Choice): number[] {
  const found: number[] = [];
  const open: CutTree[] = [cuts];
  while (open.length > 0) {
    const tree = open.pop() ?? null;
    if (typeof tree === "number") found.push(tree);
    else if (tree !== null) open.push(tree[0], tree[1]);
  }
  return found.sort((a, b) => a - b);
}

export const addTwo = (a: Choice, b: Choice): Choice => ({
  savedMilliseconds: a.savedMilliseconds + b.savedMilliseconds,
  cost: a.cost + b.cost,
  count: a.count + b.count,
  cuts: a.cuts === null ? b.cuts : b.cuts === null ? a.cuts : [a.cuts, b.cuts],
});

/** Sets that share what is added to each of them; null where nothing is. */
export interface ChoiceRow {
  readonly sets: Choices;
  readonly plus: Choice | null;
}

/** What is left of several rows, from the most saved down; the sums are only made when it is known which stay. */
interface Front {
  readonly saved: number[];
  readonly cost: number[];
  readonly count: number[];
  readonly row: number[];
  readonly at: number[];
}

const emptyFront = (): Front => ({ saved: [], cost: [], count: [], row: [], at: [] });

function toFront({ sets, plus }: ChoiceRow, row: number): Front {
  const front = emptyFront();
  const { savedMilliseconds, cost, count } = plus ?? noCuts;
  for (let at = sets.length - 1; at >= 0; at -= 1) {
    const choice = sets[at] as Choice;
    front.saved.push(choice.savedMilliseconds + savedMilliseconds);
    front.cost.push(choice.cost + cost);
    front.count.push(choice.count + count);
    front.row.push(row);
    front.at.push(at);
  }
  return front;
}

/** Whether a set comes first: it saves more, or the same for less, or for as much with fewer cuts. */
function comesFirst(a: Front, i: number, b: Front, j: number): boolean {
  const saved = (a.saved[i] as number) - (b.saved[j] as number);
  if (saved !== 0) return saved > 0;
  const cost = (a.cost[i] as number) - (b.cost[j] as number);
  return cost === 0 ? (a.count[i] as number) <= (b.count[j] as number) : cost < 0;
}

/** Both fronts without what is beaten: from the most saved down a set has to be cheaper than all before it. */
function mergeFronts(a: Front, b: Front): Front {
  const merged = emptyFront();
  let [i, j, best] = [0, 0, Number.POSITIVE_INFINITY];
  while (i < a.saved.length || j < b.saved.length) {
    const isFromA = j >= b.saved.length || (i < a.saved.length && comesFirst(a, i, b, j));
    const from = isFromA ? a : b;
    const at = isFromA ? i++ : j++;
    const cost = from.cost[at] as number;
    if (cost >= best) continue;
    best = cost;
    merged.saved.push(from.saved[at] as number);
    merged.cost.push(cost);
    merged.count.push(from.count[at] as number);
    merged.row.push(from.row[at] as number);
    merged.at.push(from.at[at] as number);
  }
  return merged;
}

/** Halves are merged first: neighbouring rows beat much of one another, so that little is left to merge. */
function mergeRows(rows: readonly ChoiceRow[], from: number, to: number): Front {
  if (to - from === 1) return toFront(rows[from] as ChoiceRow, from);
  const middle = (from + to) >> 1;
  return mergeFronts(mergeRows(rows, from, middle), mergeRows(rows, middle, to));
}

/** The unbeaten sets of all rows. */
export function mergeChoices(rows: readonly ChoiceRow[]): Choices {
  const [first] = rows;
  if (!first) return [];
  if (rows.length === 1 && first.plus === null) return first.sets;
  const { row, at } = mergeRows(rows, 0, rows.length);
  const kept: Choice[] = [];
  for (let index = row.length - 1; index >= 0; index -= 1) {
    const { sets, plus } = rows[row[index] as number] as ChoiceRow;
    const set = sets[at[index] as number] as Choice;
    kept.push(plus === null ? set : addTwo(plus, set));
  }
  return kept;
}

/** Each set of the shorter list with all sets of the longer one. */
function crossRows(left: Choices, right: Choices): ChoiceRow[] {
  const [few, many] = left.length <= right.length ? [left, right] : [right, left];
  return few.map((choice) => ({ sets: many, plus: choice === noCuts ? null : choice }));
}

/** The unbeaten sets among all sums of one set from either side of a pair. */
export function addChoices(pairs: readonly (readonly [Choices, Choices])[]): Choices {
  return mergeChoices(pairs.flatMap(([left, right]) => crossRows(left, right)));
}

/**
 * The sets of cuts of a whole piece that nothing beats, from the choices of its clusters: from "play everything" to "as
 * short as it gets".
 */
export function combineChoices(clusters: readonly Choices[]): Choices {
  return clusters.reduce((sum, choices) => addChoices([[sum, choices]]), onlyNoCuts);
}
