/** How far a long piece of work has come. */
export interface Step {
  readonly done: number;
  readonly total: number;
}

/** Work that can be left between two steps. */
export type Steps<T> = Generator<Step, T>;

/** Does all of it at once. */
export function finishSteps<T>(steps: Steps<T>): T {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}
