import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findCheapestPath, type PathModel } from "@/lib/harmony/cheapest-path";
import { findJointPath, type JointModel } from "@/lib/harmony/joint-path";

// Both searches against the plain way: every path there is, one after the other.

/** Every row of `length` numbers below `count`. */
function allRows(length: number, count: number): number[][] {
  if (length === 0) return [[]];
  return allRows(length - 1, count).flatMap((row) =>
    Array.from({ length: count }, (_, next) => [...row, next]),
  );
}

const cost = fc.nat(9);
const costs = (length: number) =>
  fc.array(cost, { minLength: length, maxLength: length }).map((row) => Int32Array.from(row));
const tables = (count: number, length: number) =>
  fc.array(costs(length), { minLength: count, maxLength: count });

const arbitraryPath: fc.Arbitrary<PathModel> = fc
  .record({ frames: fc.integer({ min: 1, max: 5 }), states: fc.integer({ min: 1, max: 4 }) })
  .chain(({ frames, states }) =>
    fc.record({
      costs: tables(frames, states),
      changes: fc.array(tables(states, states), { minLength: frames, maxLength: frames }),
      rank: fc.constant((_frame: number, state: number) => state),
    }),
  );

function costOf(model: PathModel, path: readonly number[]): number {
  return path.reduce((sum, state, frame) => {
    const change = frame === 0 ? 0 : model.changes[frame]![path[frame - 1]!]![state]!;
    return sum + change + model.costs[frame]![state]!;
  }, 0);
}

describe("the cheapest path", () => {
  it("costs no more than any other, and says what each other state would cost", () => {
    fc.assert(
      fc.property(arbitraryPath, (model) => {
        const all = allRows(model.costs.length, model.costs[0]!.length).map((path) => ({
          path,
          cost: costOf(model, path),
        }));
        const least = Math.min(...all.map((one) => one.cost));
        const { states, excess } = findCheapestPath(model);
        expect(costOf(model, states)).toBe(least);
        for (const [frame, row] of excess.entries()) {
          for (const [state, more] of row.entries()) {
            const through = all.filter(({ path }) => path[frame] === state).map((one) => one.cost);
            expect(more).toBe(Math.min(...through) - least);
          }
        }
      }),
    );
  });

  it("takes the lower rank where costs are equal", () => {
    const flat = [0, 1, 2].map(() => new Int32Array(3));
    const path = findCheapestPath({
      costs: flat,
      changes: [flat, flat, flat],
      rank: (_frame, state) => -state,
    });
    expect(path.states).toEqual([2, 2, 2]);
  });
});

const arbitraryJoint: fc.Arbitrary<JointModel> = fc
  .record({
    frames: fc.integer({ min: 1, max: 4 }),
    keys: fc.integer({ min: 1, max: 3 }),
    chords: fc.integer({ min: 1, max: 4 }),
  })
  .chain(({ frames, keys, chords }) =>
    fc.record({
      keyCosts: tables(frames, keys),
      chordCosts: tables(frames, chords),
      chordInKey: tables(keys, chords),
      isSilent: fc.array(fc.boolean(), { minLength: frames, maxLength: frames }),
      keyChange: tables(keys, keys).map((table) =>
        table.map((row, from) => row.map((change, to) => (from === to ? 0 : change))),
      ),
      chordChange: costs(frames).map((row) => row.map((change) => change + 4)),
      leadsInto: fc.array(fc.uniqueArray(fc.nat(chords - 1)), { minLength: chords, maxLength: chords }),
      leadingGain: fc.nat(3),
      rank: fc.constant((_frame: number, key: number, chord: number) => key * 10 + chord),
    }),
  );

/** States are numbered key × chords + chord. */
function jointCost(model: JointModel, path: readonly number[]): number {
  const chords = model.leadsInto.length;
  return path.reduce((sum, state, frame) => {
    const [key, chord] = [Math.floor(state / chords), state % chords];
    const here = model.keyCosts[frame]![key]! + model.chordCosts[frame]![chord]!;
    const within = model.isSilent[frame] ? 0 : model.chordInKey[key]![chord]!;
    return sum + here + within + jointChange(model, frame, path[frame - 1], state);
  }, 0);
}

function jointChange(model: JointModel, frame: number, before: number | undefined, state: number): number {
  const chords = model.leadsInto.length;
  if (before === undefined || before === state) return 0;
  const [keyBefore, key] = [Math.floor(before / chords), Math.floor(state / chords)];
  const change = model.chordChange[frame]!;
  if (keyBefore !== key) return change + model.keyChange[keyBefore]![key]!;
  return model.leadsInto[state % chords]!.includes(before % chords) ? change - model.leadingGain : change;
}

describe("the cheapest row of keys and chords", () => {
  it("costs no more than any other, and says what each other key and chord would cost", () => {
    fc.assert(
      fc.property(arbitraryJoint, (model) => {
        const [keyCount, chordCount] = [model.chordInKey.length, model.leadsInto.length];
        const all = allRows(model.keyCosts.length, keyCount * chordCount).map((path) => ({
          path,
          cost: jointCost(model, path),
        }));
        const least = Math.min(...all.map((one) => one.cost));
        const found = findJointPath(model);
        const states = found.keys.map((key, frame) => key * chordCount + found.chords[frame]!);
        expect(jointCost(model, states)).toBe(least);
        const cheapest = (holds: (path: readonly number[]) => boolean) =>
          Math.min(...all.filter(({ path }) => holds(path)).map((one) => one.cost)) - least;
        for (let frame = 0; frame < states.length; frame += 1) {
          const byKey = Array.from({ length: keyCount }, (_, key) =>
            cheapest((path) => Math.floor(path[frame]! / chordCount) === key),
          );
          const byChord = Array.from({ length: chordCount }, (_, chord) =>
            cheapest((path) => path[frame]! % chordCount === chord),
          );
          expect([...found.keyExcess[frame]!]).toEqual(byKey);
          expect([...found.chordExcess[frame]!]).toEqual(byChord);
        }
      }),
      { numRuns: 60 },
    );
  });
});
