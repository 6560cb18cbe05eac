/** A foreseeable failure is a value. `P` is a small union of problems with a `kind` each. */
export type Result<T, P> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: P };

export function success<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function failure<P>(problem: P): { readonly ok: false; readonly problem: P } {
  return { ok: false, problem };
}
