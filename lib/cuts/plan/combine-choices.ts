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

/** The sets of several rows, numbered one row after the other and each from the most saved down. Kept from call to call. */
class RowSums {
  private saved = new Float64Array(64);
  private cost = new Float64Array(64);
  private count = new Float64Array(64);
  private rowOf = new Int32Array(64);
  private atOf = new Int32Array(64);
  private from = new Int32Array(64);
  private to = new Int32Array(64);
  private ends: number[] = [];

  private makeRoom(size: number): void {
    if (size <= this.saved.length) return;
    const room = 2 * size;
    [this.saved, this.cost, this.count] = [
      new Float64Array(room),
      new Float64Array(room),
      new Float64Array(room),
    ];
    [this.rowOf, this.atOf] = [new Int32Array(room), new Int32Array(room)];
    [this.from, this.to] = [new Int32Array(room), new Int32Array(room)];
  }

  private read(rows: readonly ChoiceRow[]): void {
    let size = 0;
    for (const { sets } of rows) size += sets.length;
    this.makeRoom(size);
    this.ends = [];
    let item = 0;
    for (let row = 0; row < rows.length; row += 1) {
      const { sets, plus } = rows[row] as ChoiceRow;
      const { savedMilliseconds, cost, count } = plus ?? noCuts;
      for (let at = sets.length - 1; at >= 0; at -= 1) {
        const choice = sets[at] as Choice;
        this.saved[item] = choice.savedMilliseconds + savedMilliseconds;
        this.cost[item] = choice.cost + cost;
        this.count[item] = choice.count + count;
        this.rowOf[item] = row;
        this.atOf[item] = at;
        this.from[item] = item;
        item += 1;
      }
      this.ends.push(item);
    }
  }

  /** Whether a set comes first: it saves more, or the same for less, or for as much with fewer cuts. */
  private comesFirst(a: number, b: number): boolean {
    const saved = (this.saved[a] as number) - (this.saved[b] as number);
    if (saved !== 0) return saved > 0;
    const cost = (this.cost[a] as number) - (this.cost[b] as number);
    return cost === 0 ? (this.count[a] as number) <= (this.count[b] as number) : cost < 0;
  }

  /** Two stretches without what is beaten: from the most saved down a set has to be cheaper than all before it. */
  private mergeTwo(start: number, middle: number, end: number, begin: number): number {
    const { from, to, cost } = this;
    let [i, j, next, best] = [start, middle, begin, Number.POSITIVE_INFINITY];
    while (i < middle || j < end) {
      const isLeft = j >= end || (i < middle && this.comesFirst(from[i] as number, from[j] as number));
      const item = from[isLeft ? i++ : j++] as number;
      if ((cost[item] as number) >= best) continue;
      best = cost[item] as number;
      to[next++] = item;
    }
    return next;
  }

  /** Neighbouring rows are merged first: they beat much of one another, so that little is left to merge. */
  private mergeNeighbours(): void {
    const ends: number[] = [];
    let [start, next] = [0, 0];
    for (let at = 0; at < this.ends.length; at += 2) {
      const middle = this.ends[at] as number;
      const end = this.ends[at + 1] ?? middle;
      next = this.mergeTwo(start, middle, end, next);
      ends.push(next);
      start = end;
    }
    this.ends = ends;
    [this.from, this.to] = [this.to, this.from];
  }

  /** The sums are only made when it is known which stay. */
  merge(rows: readonly ChoiceRow[]): Choices {
    this.read(rows);
    while (this.ends.length > 1) this.mergeNeighbours();
    const kept: Choice[] = [];
    for (let index = (this.ends[0] ?? 0) - 1; index >= 0; index -= 1) {
      const item = this.from[index] as number;
      const { sets, plus } = rows[this.rowOf[item] as number] as ChoiceRow;
      const set = sets[this.atOf[item] as number] as Choice;
      kept.push(plus === null ? set : addTwo(plus, set));
    }
    return kept;
  }
}

const rowSums = new RowSums();

/** @param plus what is added to each of the sets; null for nothing. */
export const addToAll = (sets: Choices, plus: Choice | null): Choices =>
  plus === null ? sets : sets.map((set) => addTwo(plus, set));

/** The row that is left when each has one set, and all save the same; null when they are not like that. */
function findOnlyRow(rows: readonly ChoiceRow[]): ChoiceRow | null {
  let best: ChoiceRow | null = null;
  let [saved, cost, count] = [0, 0, 0];
  for (const row of rows) {
    const [set] = row.sets;
    if (!set || row.sets.length > 1) return null;
    const plus = row.plus ?? noCuts;
    const [ownSaved, ownCost] = [set.savedMilliseconds + plus.savedMilliseconds, set.cost + plus.cost];
    if (best && ownSaved !== saved) return null;
    const ownCount = set.count + plus.count;
    if (best && (ownCost > cost || (ownCost === cost && ownCount >= count))) continue;
    [best, saved, cost, count] = [row, ownSaved, ownCost, ownCount];
  }
  return best;
}

/** The unbeaten sets of all rows. */
export function mergeChoices(rows: readonly ChoiceRow[]): Choices {
  const [first] = rows;
  if (!first) return [];
  const only = rows.length === 1 ? first : findOnlyRow(rows);
  return only ? addToAll(only.sets, only.plus) : rowSums.merge(rows);
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
