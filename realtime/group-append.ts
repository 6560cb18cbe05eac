import { failure, type Result, success } from "@/lib/score/result";
import { hasAnswered, journalConnectionCount } from "@/lib/store/journal-connections";
import { appendRoomUpdates, type CheckedRoomUpdate } from "@/lib/store/room/append-room-updates";

/** Why an update was not appended: another node was first, the room began anew, the writer may not or has signed out. */
export type AppendProblem =
  | { readonly kind: "behind" }
  | { readonly kind: "other-epoch" }
  | { readonly kind: "signed-out" }
  | { readonly kind: "not-a-member" };

/** Where a log now ends. */
export interface AppendedEntry {
  readonly pieceId: string;
  readonly sequence: number;
}

/** The sequence of the new entry, or why there is none. */
export type AppendAnswer = Result<number, AppendProblem>;

interface Waiting {
  readonly update: CheckedRoomUpdate;
  readonly resolve: (answer: AppendAnswer) => void;
  readonly reject: (error: unknown) => void;
}

const largestGroup = 200;

/**
 * A commit that takes longer than this is on a slow disk, or waits for a piece that somebody holds: then another
 * goes beside it. Otherwise one at a time is cheapest, and what waits for it waits no longer than a commit.
 */
const patienceMs = 4;

/**
 * While updates come so fast that they share commits, commits start no closer together than this: fewer and larger
 * ones leave the processor to the rooms, and nobody notices the wait. An update that comes alone is written at once.
 */
const paceMs = 3;

/**
 * Appends the updates of many rooms with few commits: whatever arrives while one is under way is written together
 * in the next. Nothing waits for company when none is.
 */
export class GroupAppend {
  #waiting: Waiting[] = [];
  #underWay = 0;
  #lastStart = 0;
  #lastSize = 0;
  #timer: NodeJS.Timeout | null = null;

  /** @param onAppended hears of every entry once it is stored. */
  constructor(private readonly onAppended: (entries: readonly AppendedEntry[]) => void) {}

  /**
   * Appends one update; of each room one at a time.
   *
   * @throws when the database does not answer; whether it was appended is then unknown, and the log tells later.
   */
  append(update: CheckedRoomUpdate): Promise<AppendAnswer> {
    return new Promise((resolve, reject) => {
      this.#waiting.push({ update, resolve, reject });
      // After this turn of the event loop: what came in with the same breath goes out together.
      if (this.#waiting.length === 1) setImmediate(() => this.#start());
    });
  }

  #start(): void {
    while (this.#waiting.length > 0 && this.#hasTurn()) {
      const group = this.#waiting.splice(0, largestGroup);
      this.#underWay += 1;
      this.#lastStart = performance.now();
      this.#lastSize = group.length;
      void this.#write(group).finally(() => {
        this.#underWay -= 1;
        this.#start();
      });
    }
    if (this.#waiting.length > 0 && this.#underWay < journalConnectionCount) this.#startLater();
  }

  #hasTurn(): boolean {
    return this.#underWay < journalConnectionCount && this.#waitMs() <= 0;
  }

  /** How long the next commit still has to wait. */
  #waitMs(): number {
    const pause = this.#underWay > 0 ? patienceMs : this.#lastSize > 1 ? paceMs : 0;
    return pause - (performance.now() - this.#lastStart);
  }

  #startLater(): void {
    this.#timer ??= setTimeout(
      () => {
        this.#timer = null;
        this.#start();
      },
      Math.max(1, this.#waitMs()),
    );
  }

  /** What the database refuses together is tried one by one, so that nobody's update stands in another's way. */
  async #write(group: readonly Waiting[]): Promise<void> {
    try {
      const answers = (await appendRoomUpdates(group.map(({ update }) => update))).map(toAnswer);
      this.#tell(group, answers);
    } catch (error) {
      if (group.length > 1 && hasAnswered(error)) for (const one of group) await this.#write([one]);
      else for (const { reject } of group) reject(error);
    }
  }

  #tell(group: readonly Waiting[], answers: readonly AppendAnswer[]): void {
    const entries: AppendedEntry[] = [];
    answers.forEach((answer, index) => {
      const one = group[index];
      if (answer.ok && one) entries.push({ pieceId: one.update.pieceId, sequence: answer.value });
      one?.resolve(answer);
    });
    if (entries.length > 0) this.onAppended(entries);
  }
}

function toAnswer(stored: Awaited<ReturnType<typeof appendRoomUpdates>>[number]): AppendAnswer {
  if (stored.ok) return success(stored.value.sequence);
  switch (stored.problem.kind) {
    case "conflict":
      return failure({ kind: "behind" });
    case "stale-terms":
      return failure({ kind: "other-epoch" });
    case "signed-out":
      return failure({ kind: "signed-out" });
    default:
      return failure({ kind: "not-a-member" });
  }
}
