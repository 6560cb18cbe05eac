import type { Prisma } from "@/generated/prisma/client";
import { type RestNeedTerms, restNeedTermsSchema } from "@/lib/edition/rest-need-terms";

export type RestNeedDeed = "noted" | "changed" | "released" | "held again" | "removed" | "brought back";

/** Something that was done to a rest need. */
export interface RestNeedEventRecord {
  readonly userId: string;
  readonly what: RestNeedDeed;
  /** As they were after it. */
  readonly terms: RestNeedTerms;
  readonly at: Date;
}

/** How long the soloist must be silent somewhere, with everything that was done to it. */
export interface RestNeedRecord {
  readonly id: string;
  readonly terms: RestNeedTerms;
  readonly notedBy: string;
  readonly createdAt: Date;
  readonly changedAt: Date;
  /** Who has let it go, and when: it is shown and no longer kept. Null while it holds. */
  readonly releasedBy: string | null;
  readonly releasedAt: Date | null;
  /** Set when it was taken off; it can be brought back. */
  readonly removedAt: Date | null;
  /** In the order in which it happened. */
  readonly history: readonly RestNeedEventRecord[];
}

export const restNeedParts = {
  events: { orderBy: [{ at: "asc" }, { id: "asc" }] },
} as const satisfies Prisma.RestNeedInclude;

export type RestNeedRow = Prisma.RestNeedGetPayload<{ include: typeof restNeedParts }>;
type DeedInRow = RestNeedRow["events"][number]["what"];

const deeds: Readonly<Record<DeedInRow, RestNeedDeed>> = {
  noted: "noted",
  changed: "changed",
  released: "released",
  held_again: "held again",
  removed: "removed",
  brought_back: "brought back",
};

export function toRestNeedRecord(row: RestNeedRow): RestNeedRecord {
  const { id, createdAt, changedAt, releasedAt, removedAt } = row;
  return {
    ...{ id, createdAt, changedAt, releasedAt, removedAt },
    terms: restNeedTermsSchema.parse(row.terms),
    notedBy: row.notedById,
    releasedBy: row.releasedById,
    history: row.events.map(({ userId, what, terms, at }) => ({
      ...{ userId, at },
      what: deeds[what],
      terms: restNeedTermsSchema.parse(terms),
    })),
  };
}
