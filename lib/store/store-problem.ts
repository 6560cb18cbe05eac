/** Why the store did not do what was asked. `sentence` is for the reader. */
export type StoreProblem =
  /** There is no such thing, or the viewer does not belong to it: the same answer, so that nothing can be guessed. */
  | { readonly kind: "not-found" }
  | { readonly kind: "not-allowed"; readonly sentence: string }
  /** The hash that was seen is not the hash that is stored. */
  | { readonly kind: "stale-terms"; readonly sentence: string }
  | { readonly kind: "already-answered"; readonly sentence: string }
  | { readonly kind: "invalid-input"; readonly sentence: string }
  /** It contradicts something that is already so, such as an agreed cut in the same bars. */
  | { readonly kind: "conflict"; readonly sentence: string }
  | { readonly kind: "too-large"; readonly limitBytes: number }
  | { readonly kind: "unreadable-source"; readonly sentence: string }
  /** The music is there, its picture or its print is not. */
  | { readonly kind: "not-engraved"; readonly sentence: string }
  | { readonly kind: "rate-limited"; readonly retryAfterSeconds: number }
  | { readonly kind: "sign-in-failed" };

export type StoreProblemKind = StoreProblem["kind"];

/** One sentence for the reader. */
export function sayStoreProblem(problem: StoreProblem): string {
  switch (problem.kind) {
    case "not-found":
      return "There is nothing here that you belong to.";
    case "too-large":
      return `The file is larger than ${Math.floor(problem.limitBytes / 1024 / 1024)} MB. Export it again without sound or pictures.`;
    case "rate-limited":
      return `Too many tries. Wait ${sayWait(problem.retryAfterSeconds)} and try again.`;
    case "sign-in-failed":
      return "This e-mail and this password do not belong together.";
    default:
      return problem.sentence;
  }
}

function sayWait(seconds: number): string {
  if (seconds <= 90) return `${Math.max(1, Math.ceil(seconds))} seconds`;
  return `${Math.ceil(seconds / 60)} minutes`;
}
