import fc from "fast-check";
import type { PieceArchive } from "@/lib/archive/piece-archive";
import type { ArchivedRoom } from "@/lib/archive/room-schema";
import type { ArchivedEdition } from "@/lib/edition/archive/edition-archive";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { roomMapNames } from "@/lib/room/room-keys";
import type { CutSpan } from "@/lib/score/cut-span";
import { playedMusicXml } from "@/lib/store/archive/played-music-xml";
import { buildEditionArchive } from "./build-edition-archive";
import { buildRewrite } from "./build-rewrite";
import { at } from "./build-score";
import { Choices } from "./choices";

/** What a random piece is made of: choices, and the words in it. */
export interface PieceParts {
  readonly choices: readonly number[];
  readonly words: readonly string[];
}

/** Any words but those that no database of ours takes: they are taken out of what is written here before it is kept. */
const someWords = fc
  .string({ unit: "grapheme", minLength: 1, maxLength: 24 })
  .map((text) => text.replaceAll("\u0000", "").trim() || "a word");

export const pieceParts: fc.Arbitrary<PieceParts> = fc.record({
  choices: fc.array(fc.nat(1_000_000), { minLength: 40, maxLength: 400 }),
  words: fc.array(someWords, { minLength: 3, maxLength: 12 }),
});

/** A piece of twenty bars in full use, as an archive: its people, decisions, marks, editions and occasions by choice. */
export function buildPieceArchive({ choices, words }: PieceParts): PieceArchive {
  return new PieceBuilder(new Choices(choices), words, 0).build();
}

/** The same every time, with everything in it at least once. */
export function buildFullPiece(): PieceArchive {
  const numbers = Array.from({ length: 400 }, (_, index) => ((index + 3) * 287 * 287) % 1009);
  const words = ["Concertino", "Die Fermate länger", "“lip”", "Nerys Quill"];
  return new PieceBuilder(new Choices(numbers), words, 1).build();
}

class PieceBuilder {
  readonly #choices: Choices;
  readonly #words: readonly string[];
  /** The shortest list of each kind. */
  readonly #least: 0 | 1;
  #hours = 0;

  constructor(choices: Choices, words: readonly string[], least: 0 | 1) {
    this.#choices = choices;
    this.#words = words;
    this.#least = least;
  }

  build(): PieceArchive {
    const spans = this.#list(3, () => [this.#span()]);
    const { editions, sources } = buildEditionArchive(spans);
    const [source] = sources;
    if (!source) throw new RangeError("A piece without a source");
    const bytes = new Map([[source.hash, source.bytes]]);
    const people = this.#people();
    const proposals = this.#proposals(source.hash);
    const rewrites = this.#rewrites(source.hash);
    const rewriteProposals = this.#questions(rewrites, proposals.length);
    const needs = this.#needs(source.hash);
    const performances = editions.length > 0 ? this.#performances(editions.length) : [];
    return {
      piece: {
        ...{ title: this.#word(), movement: this.#maybe(() => this.#word()) },
        ...{ composer: this.#maybe(() => this.#word()), soloInstrument: this.#maybe(() => this.#word()) },
        branchName: this.#maybe(() => this.#word()),
        limitSeconds: this.#maybe(() => 60 + this.#choices.below(600)),
        longTuttiBars: this.#choices.below(30),
        tempo: { tempi: [], ritardandoTo: 0.75, fermataFactor: 1.75, timings: [] },
        ...{ createdAt: this.#moment(), people },
        sources: [
          {
            kind: "solo and reduction",
            ...{ hash: source.hash, fileName: this.#word(), partRoles: { P1: "solo", P2: "reduction" } },
            ...{ uploadedBy: "p1", createdAt: this.#moment() },
          },
        ],
        pageBreaks: this.#list(2, () => ({
          reader: this.#choices.pick(["pianist", "soloist"]),
          ...{ paper: "A4", sourceHash: source.hash, barIndex: this.#choices.below(20) },
          ...{ pinnedBy: this.#player(), createdAt: this.#moment() },
          removedAt: this.#maybe(() => this.#moment()),
        })),
      },
      ...{ bytes, proposals, needs, performances, rewriteProposals },
      rewrites: rewrites.map((rewrite, index) => ({
        ...rewrite,
        proposal: rewriteProposals[index]?.key ?? null,
      })),
      hints: this.#list(3, () => ({
        ...{ instrument: this.#word(), text: this.#word(), by: this.#player(), at: this.#moment() },
      })),
      approvals: this.#list(3, () => ({
        ...{ by: this.#player(), ...this.#approved(editions), at: this.#moment() },
        endedAt: this.#maybe(() => this.#moment()),
      })),
      room: this.#room(proposals.map(({ key }) => key)),
      trail: this.#list(6, () => ({
        ...{ at: this.#moment(), by: this.#maybe(() => this.#player()), what: this.#word() },
        about: {
          ...{
            number: this.#choices.below(9),
            words: [this.#word(), null, { deep: 0.1 }],
            userId: this.#player(),
          },
          ...(proposals[0] ? { proposalId: proposals[0].key } : {}),
          ...(needs[0] ? { needId: needs[0].key } : {}),
          ...(rewrites[0] ? { rewriteId: rewrites[0].key } : {}),
        },
      })),
      editions: editions.map((edition) => ({
        ...edition,
        approvals: edition.approvals.map((approval, index) => ({ ...approval, by: `p${index + 1}` })),
        proposals: proposals.map(({ key }) => key).filter(() => this.#choices.oneIn(2)),
        rendererVersion: this.#maybe(() => "engraver-1"),
        musicXml: playedMusicXml(edition, bytes),
      })),
    };
  }

  /** What was wanted to be frozen, as it was kept once and as it is kept now. */
  #approved(editions: readonly ArchivedEdition[]) {
    const content = this.#maybe(() => editions[0]?.content ?? null);
    if (content === null) return { contentHash: hashTerms(this.#word()), content: null };
    const written = { ...content, schema: 2 as const };
    return { contentHash: hashTerms(written), content: written };
  }

  #people(): PieceArchive["piece"]["people"] {
    const roles: PieceArchive["piece"]["people"][number]["role"][] = [
      "pianist",
      "soloist",
      ...this.#list(3, () => this.#choices.pick(["coach", "reader"] as const)),
    ];
    return roles.map((role, index) => ({
      ...{ key: `p${index + 1}`, name: this.#word(), role, joinedAt: this.#moment() },
      leftAt: index < 2 ? null : this.#maybe(() => this.#moment()),
      breath: this.#maybe(() => ({
        ...{ comfortableSeconds: 11.5, catchSeconds: 0.3, restPerPlayed: null, windowSeconds: 60 },
      })),
    }));
  }

  #proposals(sourceHash: string): PieceArchive["proposals"] {
    return this.#list(4, (index) => {
      const terms = toCutTerms(this.#span(), sourceHash);
      const termsHash = hashTerms(terms);
      return {
        ...{ key: `proposal-${index + 1}`, number: index + 1, terms, termsHash, reason: this.#word() },
        why: null,
        state: this.#choices.pick(["open", "agreed", "declined", "withdrawn", "superseded", "reopened"]),
        ...{ proposedBy: this.#player(), createdAt: this.#moment() },
        supersedes: index > 0 ? this.#maybe(() => `proposal-${1 + this.#choices.below(index)}`) : null,
        answers: this.#list(3, () => ({
          ...{ by: this.#player(), reason: this.#word(), termsHash, at: this.#moment() },
          answer: this.#choices.pick(["agree", "decline", "counter", "withdraw", "reopen"]),
        })),
      };
    });
  }

  /** A bar each, so that all of them may stand. Those that are asked about come first: `#questions` is in their order. */
  #rewrites(sourceHash: string): PieceArchive["rewrites"] {
    const asked = this.#list(2, () => "asked" as const);
    const sharings = [...asked, ...this.#list(2, () => "told" as const)];
    return sharings.map((sharing, index) => {
      const terms = buildRewrite(sourceHash, index);
      const key = `rewrite-${index + 1}`;
      return {
        ...{ key, number: index + 1, by: "p1", terms, termsHash: hashTerms(terms), sharing },
        createdAt: this.#moment(),
        replaces: index > 0 ? this.#maybe(() => `rewrite-${1 + this.#choices.below(index)}`) : null,
        replacedAt: this.#maybe(() => this.#moment()),
        takenOffAt: this.#maybe(() => this.#moment()),
        ...{ proposal: null, editions: [] },
        events: this.#list(3, () => ({
          ...{ by: "p1", sharing, reason: this.#word(), at: this.#moment() },
          what: this.#choices.pick(["kept", "shared", "replaced", "taken off", "brought back"]),
        })),
      };
    });
  }

  /** Keys of proposals are counted through both files. */
  #questions(rewrites: PieceArchive["rewrites"], before: number): PieceArchive["rewriteProposals"] {
    const asked = rewrites.filter(({ sharing }) => sharing === "asked");
    return asked.map(({ number, terms, termsHash }, index) => ({
      ...{ key: `proposal-${before + index + 1}`, number, terms, termsHash, reason: this.#word() },
      state: this.#choices.pick(["open", "agreed", "declined", "withdrawn", "superseded", "reopened"]),
      ...{ proposedBy: "p1", createdAt: this.#moment(), supersedes: null },
      answers: this.#list(2, () => ({
        ...{ by: "p2", reason: this.#word(), termsHash, at: this.#moment() },
        answer: this.#choices.pick(["agree", "decline", "withdraw", "reopen"]),
      })),
    }));
  }

  #needs(sourceHash: string): PieceArchive["needs"] {
    return this.#list(3, (index) => {
      const { from, to } = toCutTerms(this.#span(), sourceHash);
      const terms = {
        sourceHash,
        from,
        to,
        needs: { seconds: 0.1 + this.#choices.below(30) },
        why: this.#word(),
      };
      return {
        ...{ key: `need-${index + 1}`, terms, notedBy: "p2" },
        ...{ createdAt: this.#moment(), changedAt: this.#moment() },
        releasedBy: this.#maybe(() => "p2"),
        ...{ releasedAt: this.#maybe(() => this.#moment()), removedAt: this.#maybe(() => this.#moment()) },
        events: this.#list(3, () => ({
          ...{ by: "p2", terms, at: this.#moment() },
          what: this.#choices.pick(["noted", "changed", "released", "held again", "removed", "brought back"]),
        })),
      };
    });
  }

  #performances(editions: number): PieceArchive["performances"] {
    return this.#list(3, (index) => ({
      ...{ key: `performance-${index + 1}`, editionNumber: 1 + this.#choices.below(editions) },
      kind: this.#choices.pick(["jury", "examination", "competition", "recital", "run-through"]),
      ...{ name: this.#word(), on: "2026-04-11", startsAt: this.#maybe(() => "19:30"), place: this.#word() },
      limitSeconds: this.#maybe(() => 300),
      plannedSeconds: this.#choices.below(9_000) / 7,
      realSeconds: this.#maybe(() => this.#choices.below(9_000) / 11),
      sections: this.#maybe(() => ({
        ...{ runId: "0b6f3c2e-6a51-4d5e-9a43-0c6a7f1f3d21", startedAt: this.#moment(), byDeviceClock: false },
        sections: [
          { name: "A", isLetter: true, plannedSeconds: 30.5, realSeconds: this.#maybe(() => 31.25) },
        ],
      })),
      ...{ remarks: this.#word(), result: this.#word(), loggedBy: this.#player() },
      ...{ createdAt: this.#moment(), changedAt: this.#moment() },
      removedAt: this.#maybe(() => this.#moment()),
    }));
  }

  #room(proposals: readonly string[]): ArchivedRoom {
    const comments = this.#list(4, (index) => ({
      at: this.#moment(),
      record: {
        ...{
          id: `comment-${index}`,
          authorId: this.#player(),
          createdAt: this.#moment(),
          text: this.#word(),
        },
        about: proposals[0]
          ? { kind: "proposal" as const, proposalId: proposals[0] }
          : { kind: "span" as const, from: this.#place(2), to: this.#place(6) },
        replyTo: index > 0 ? this.#maybe(() => "comment-0") : null,
        deletedAt: this.#maybe(() => this.#moment()),
        ...{ editedAt: this.#maybe(() => this.#moment()), print: false },
      },
    }));
    const breaths = this.#list(4, (index) => ({
      at: this.#moment(),
      record: {
        ...{ id: `breath-${index}`, authorId: "p2", at: this.#place(this.#choices.below(20)) },
        deletedAt: this.#maybe(() => this.#moment()),
      },
    }));
    const pencilledCuts = this.#list(3, (index) => ({
      at: this.#moment(),
      record: {
        ...{ id: `version-${index}`, cutId: "cut", authorId: this.#player(), createdAt: this.#moment() },
        ...{ from: this.#place(1), to: this.#place(7), over: index > 0 ? [`version-${index - 1}`] : [] },
        isRubbedOut: this.#choices.oneIn(2),
      },
    }));
    const resolutions = comments.slice(0, 1).map(({ record }) => ({
      at: this.#moment(),
      record: { commentId: record.id, byId: this.#player(), at: this.#moment(), isResolved: true },
    }));
    const others = Object.fromEntries(roomMapNames.map((map) => [map, []]));
    return { ...others, comments, breaths, pencilledCuts, resolutions } as unknown as ArchivedRoom;
  }

  /** In the order of time, as everything is written. */
  #list<T>(most: number, make: (index: number) => T): T[] {
    const length = this.#least + this.#choices.below(most + 1 - this.#least);
    return Array.from({ length }, (_, index) => make(index));
  }

  #maybe<T>(make: () => T): T | null {
    return this.#choices.oneIn(2) ? make() : null;
  }

  #word(): string {
    return this.#choices.pick(this.#words);
  }

  #player(): string {
    return this.#choices.pick(["p1", "p2"]);
  }

  #place(barIndex: number): PositionTerms {
    return { barIndex, offset: "0" };
  }

  #span(): CutSpan {
    const from = 1 + this.#choices.below(10);
    return { from: at(from), to: at(from + 1 + this.#choices.below(6)) };
  }

  /** Later than the one before, or the same: what happens in one transaction has one time. */
  #moment(): string {
    this.#hours += this.#choices.below(3);
    return new Date(Date.UTC(2026, 3, 1, this.#hours)).toISOString();
  }
}
