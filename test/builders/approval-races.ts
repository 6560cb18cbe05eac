import { printedTempo } from "@/lib/edition/tempo-terms";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { commentOf, cueOf } from "@/test/lib/room/room-records";
import { bringDuo, type Duo, type Person, valued } from "@/test/lib/store/duo";
import { RoomOfDuo } from "@/test/lib/store/room/room-of-duo";

/** What changes at the moment at which somebody says yes. */
export const edits = ["breath", "breath taken off", "cue", "remark", "tempo"] as const;
export type Edit = (typeof edits)[number];

/** What came of one pair: nothing, the first yes, or an edition. */
export interface RaceOutcomes {
  readonly pairs: number;
  /** The edition was made before the change. */
  readonly frozenFirst: number;
  /** The change was first, and every yes to what stood before was refused. */
  readonly changedFirst: number;
  /** The change came between the two yeses. */
  readonly changedBetween: number;
}

/** What must never be. */
export interface RaceFaults {
  /** A yes on record, or under an edition, to something that this player was never shown. */
  readonly unseen: number;
  /** Editions of one content made twice in a row, more or fewer than two names under one, two standing yeses of one player. */
  readonly doubles: number;
  /** An edition that is not what both asked for when it was made. */
  readonly other: number;
  /** Numbers that are skipped, or an edition that does not follow the one before. */
  readonly brokenChains: number;
}

/**
 * A piece whose two players say yes while something changes, over connections of their own. What each was shown, and with
 * it the hash that they sent, is written down here as the screen would have had it.
 */
export class ApprovalRace {
  readonly #room: RoomOfDuo;
  readonly #seen = new Map<string, Set<string>>();
  #count = 0;
  #other = 0;
  #breaths: string[] = [];
  readonly #outcomes = { pairs: 0, frozenFirst: 0, changedFirst: 0, changedBetween: 0 };

  private constructor(readonly duo: Duo) {
    this.#room = new RoomOfDuo(duo);
  }

  static async begin(): Promise<ApprovalRace> {
    return new ApprovalRace(await bringDuo());
  }

  get outcomes(): RaceOutcomes {
    return this.#outcomes;
  }

  /**
   * @param isBoth whether both yeses race the change, or the first was given before.
   * @param headStart of the change, in questions to the database that are answered meanwhile; negative is the yeses'.
   */
  async run(edit: Edit, { isBoth, headStart }: { isBoth: boolean; headStart: number }): Promise<void> {
    const { pianist, soloist } = this.duo;
    const [hash, other] = await this.#lookBoth();
    if (hash === null || hash === undefined || other !== hash)
      throw new Error("the two were shown different things");
    if (!isBoth) valued(await approveEdition(pianist, this.duo.pieceId, { hash }));
    const racing = [soloist, ...(isBoth ? [pianist] : [])];
    const yeses = () => racing.map((person) => approveEdition(person, this.duo.pieceId, { hash }));
    const [answers] = await Promise.all([
      after(headStart).then(() => Promise.all(yeses())),
      after(-headStart).then(() => this.#change(edit)),
    ]);
    this.#note(hash, answers);
  }

  async #lookBoth(): Promise<(string | null)[]> {
    const both = () => Promise.all([this.duo.pianist, this.duo.soloist].map((person) => this.#look(person)));
    const seen = await both();
    if (seen[0] !== null) return seen;
    // A breath that is taken off can leave what the last edition has.
    await this.#change("tempo");
    return both();
  }

  /** What a player is shown now; null when there is nothing to freeze. */
  async #look(person: Person): Promise<string | null> {
    const { hash, canFreeze } = valued(await readWorkingEdition(person, this.duo.pieceId));
    if (!canFreeze) return null;
    const seen = this.#seen.get(person.userId) ?? new Set();
    this.#seen.set(person.userId, seen.add(hash));
    return hash;
  }

  #note(hash: string, answers: readonly Awaited<ReturnType<typeof approveEdition>>[]): void {
    const frozen = answers.flatMap((answer) =>
      answer.ok && answer.value.frozen ? [answer.value.frozen] : [],
    );
    const refused = answers.filter((answer) => !answer.ok);
    const isStrange = refused.some(({ problem }) => problem?.kind !== "stale-terms");
    if (isStrange || frozen.length > 1 || frozen.some((edition) => edition.hash !== hash)) this.#other += 1;
    this.#outcomes.pairs += 1;
    if (frozen.length > 0) this.#outcomes.frozenFirst += 1;
    else if (refused.length === answers.length) this.#outcomes.changedFirst += 1;
    else this.#outcomes.changedBetween += 1;
  }

  async #change(edit: Edit): Promise<void> {
    const { pianist, soloist, pieceId } = this.duo;
    this.#count += 1;
    const [id, barIndex] = [`r${this.#count}`, this.#count % 16];
    const soloistBreath = (name: string, deletedAt: string | null) =>
      this.#room.write(soloist, "soloist", "breaths", {
        ...{ id: name, authorId: soloist.userId, deletedAt },
        at: { barIndex: Number(name.slice(1)) % 16, offset: `${1 + 2 * Number(name.slice(1))}/4096` },
      });
    const taken = edit === "breath taken off" ? this.#breaths.pop() : undefined;
    if (taken !== undefined) {
      await soloistBreath(taken, "2026-11-25T08:30:00.000Z");
      return;
    }
    switch (edit) {
      case "breath":
      case "breath taken off":
        await soloistBreath(id, null);
        this.#breaths.push(id);
        return;
      case "cue":
        await this.#room.write(
          pianist,
          "pianist",
          "cues",
          cueOf(withId(pianist), id, barIndex, { text: `Fl. ${this.#count}` }),
        );
        return;
      case "remark":
        await this.#room.write(
          ...([pianist, "pianist", "comments"] as const),
          commentOf(withId(pianist), id, { text: `Wait ${this.#count}`, print: true }),
        );
        return;
      case "tempo": {
        const tempi = [{ at: { barIndex: 0, offset: "0" }, quartersPerMinute: 40 + this.#count / 8 }];
        valued(await setTempoSettings(pianist, pieceId, { settings: { ...printedTempo, tempi } }));
      }
    }
  }

  /** Reads from the database what must never be. */
  async findFaults(): Promise<RaceFaults> {
    const { pieceId } = this.duo;
    const approvals = await database().approval.findMany({ where: { pieceId } });
    const editions = await database().edition.findMany({
      where: { pieceId },
      orderBy: { number: "asc" },
      include: { approvals: true },
    });
    const wasShown = (userId: string, hash: string) => this.#seen.get(userId)?.has(hash) ?? false;
    const signed = editions.flatMap(({ hash, approvals: names }) =>
      names.map(({ userId }) => ({ userId, hash })),
    );
    const given = approvals.map(({ userId, contentHash: hash }) => ({ userId, hash }));
    const standing = approvals.filter(({ endedAt }) => endedAt === null).map(({ userId }) => userId);
    return {
      unseen: [...signed, ...given].filter(({ userId, hash }) => !wasShown(userId, hash)).length,
      doubles:
        editions.filter(({ hash, previousHash }) => hash === previousHash).length +
        editions.filter(({ approvals: names }) => names.length !== 2).length +
        (standing.length - new Set(standing).size) +
        Math.abs(this.#outcomes.frozenFirst - editions.length),
      other: this.#other,
      brokenChains: editions.filter(
        ({ number, previousHash }, index) =>
          number !== index + 1 || previousHash !== (editions[index - 1]?.hash ?? null),
      ).length,
    };
  }
}

/** Waits for so many answers of the database; not at all for none. */
async function after(questions: number): Promise<void> {
  for (let asked = 0; asked < questions; asked += 1) await database().$queryRaw`SELECT 1 AS asked`;
}

const withId = ({ userId, name }: Person) => ({ userId, name, role: "pianist" as const });
