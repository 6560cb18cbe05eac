import type { CutEnds } from "../../_cuts/cut-questions";
import { mostListed, noWishes, type PlanState, type Wishes } from "./wishes";

export type PlanMove =
  | { readonly kind: "wish"; readonly wishes: Partial<Omit<Wishes, "leftOut" | "kept">> }
  | { readonly kind: "wish-anew"; readonly wishes: Wishes }
  | { readonly kind: "leave-out" | "take-in" | "keep" | "let-go"; readonly ends: CutEnds }
  | { readonly kind: "no-wishes" }
  | { readonly kind: "length"; readonly saves: number }
  | { readonly kind: "other"; readonly index: number }
  | { readonly kind: "best" };

const isSame = (a: CutEnds, b: CutEnds) => JSON.stringify(a) === JSON.stringify(b);

function added(list: readonly CutEnds[], { from, to }: CutEnds): CutEnds[] {
  const ends = { from, to };
  return [...list.filter((one) => !isSame(one, ends)), ends].slice(-mostListed);
}

const without = (list: readonly CutEnds[], { from, to }: CutEnds) =>
  list.filter((one) => !isSame(one, { from, to }));

/** A length that was chosen stays while the wishes change; one of the other sets is another one then. */
function wished({ wishes, choice }: PlanState, change: Partial<Wishes>): PlanState {
  return {
    wishes: { ...wishes, ...change },
    choice: choice.kind === "other" ? { kind: "best" } : choice,
  };
}

/** The next state; pure. */
export function movePlan(state: PlanState, move: PlanMove): PlanState {
  const { leftOut, kept } = state.wishes;
  switch (move.kind) {
    case "wish":
    case "wish-anew":
      return wished(state, move.wishes);
    case "no-wishes":
      return { wishes: noWishes, choice: { kind: "best" } };
    case "leave-out":
      return wished(state, { leftOut: added(leftOut, move.ends) });
    case "take-in":
      return wished(state, { leftOut: without(leftOut, move.ends) });
    case "keep":
      return wished(state, { kept: added(kept, move.ends) });
    case "let-go":
      return wished(state, { kept: without(kept, move.ends) });
    case "length":
      return { ...state, choice: { kind: "length", saves: move.saves } };
    case "other":
      return { ...state, choice: { kind: "other", index: move.index } };
    case "best":
      return { ...state, choice: { kind: "best" } };
  }
}
