import type { Result } from "@/lib/score/result";
import type { StoreProblem } from "@/lib/store/store-problem";

/** Something that is being made, or was made lately. */
export interface Lately<T> {
  readonly made: Promise<Result<T, StoreProblem>>;
  /** From 0 to 1. */
  progress: number;
  isDone: boolean;
}

/** Keeps what was made lately, so that it is made once for all who ask. */
export class MadeLately<T> {
  private readonly kept = new Map<string, Lately<T>>();

  constructor(private readonly mostKept: number) {}

  /**
   * What was made lately, or is being made for somebody else, else begun anew. What failed is told to all who wait for it, and
   * not kept.
   *
   * @param key names everything that it is made from.
   */
  join(
    key: string,
    make: (report: (progress: number) => void) => Promise<Result<T, StoreProblem>>,
  ): Lately<T> {
    const { kept } = this;
    const known = kept.get(key);
    if (known) {
      // Asked for again, it is the last to be let go.
      kept.delete(key);
      kept.set(key, known);
      return known;
    }
    let making: Lately<T> | null = null;
    const made = make((progress) => {
      if (making) making.progress = Math.max(making.progress, progress);
    });
    making = { made, progress: 0, isDone: false };
    kept.set(key, making);
    this.watch(key, making);
    const [oldest] = kept.keys();
    if (kept.size > this.mostKept && oldest !== undefined) kept.delete(oldest);
    return making;
  }

  /** What has this key already; null when it would have to be begun. */
  find(key: string): Lately<T> | null {
    return this.kept.get(key) ?? null;
  }

  private watch(key: string, making: Lately<T>): void {
    const forget = () => {
      if (this.kept.get(key) === making) this.kept.delete(key);
    };
    making.made.then((result) => {
      making.isDone = true;
      // Somebody who asks again and again how far it is hears of the failure before it is begun anew.
      if (!result.ok) setTimeout(forget, 3000).unref();
    }, forget);
  }
}

/** How far something is, or what it has become. */
export type Glimpse<T> =
  | { readonly state: "making"; readonly progress: number }
  | { readonly state: "made"; readonly value: T };

/** So long an answer may wait before it says how far it is: what is small is there by then. */
const patienceMilliseconds = 300;

/**
 * The thing itself when it is there soon, else how far it is.
 *
 * @param options.isPatient waits for it however long it takes.
 */
export async function glimpse<T>(
  lately: Lately<T>,
  options: { readonly isPatient: boolean } = { isPatient: false },
): Promise<Result<Glimpse<T>, StoreProblem>> {
  if (!lately.isDone && !options.isPatient) {
    const soon = new Promise<null>((resolve) => setTimeout(() => resolve(null), patienceMilliseconds));
    const first = await Promise.race([lately.made, soon]);
    if (first === null) return { ok: true, value: { state: "making", progress: lately.progress } };
  }
  const result = await lately.made;
  return result.ok ? { ok: true, value: { state: "made", value: result.value } } : result;
}
