import type { RewriteDeed } from "@/generated/prisma/client";
import type { WrittenInPiece } from "@/lib/archive/account-archive";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { triedTempoSchema } from "@/lib/practice/practice-entry";
import { database } from "../database";
import type { RewriteSharing } from "../rewrites/rewrite-record";

const sharings = { only_me: "only me", told: "told", asked: "asked" } as const satisfies Record<
  RewriteSharing,
  string
>;

const deeds = {
  kept: "kept",
  shared: "shared",
  replaced: "replaced",
  taken_off: "taken off",
  brought_back: "brought back",
} as const satisfies Record<RewriteDeed, string>;

/** What a person wrote in a piece and may never have shown to anybody: rewrites of every kind, and the log of their practice. */
export async function readOwnInPiece(
  userId: string,
  pieceId: string,
): Promise<Pick<WrittenInPiece, "rewrites" | "practice">> {
  const [rewrites, practice] = await Promise.all([
    database().rewrite.findMany({
      where: { pieceId, authorId: userId },
      orderBy: [{ createdAt: "asc" }, { id: "asc" }],
      include: {
        events: { where: { userId }, orderBy: [{ at: "asc" }, { id: "asc" }] },
        editions: {
          select: { edition: { select: { number: true } } },
          orderBy: { edition: { number: "asc" } },
        },
      },
    }),
    database().practiceEntry.findMany({
      where: { pieceId, userId },
      orderBy: [{ at: "asc" }, { id: "asc" }],
    }),
  ]);
  return {
    rewrites: rewrites.map(({ number, terms, termsHash, sharing, createdAt, ...row }) => ({
      ...{ number, terms: rewriteTermsSchema.parse(terms), termsHash, sharing: sharings[sharing] },
      createdAt: createdAt.toISOString(),
      ...{ replacedAt: iso(row.replacedAt), takenOffAt: iso(row.takenOffAt) },
      editions: row.editions.map(({ edition }) => edition.number),
      events: row.events.map((event) => ({
        ...{ what: deeds[event.what], sharing: sharings[event.sharing] },
        ...{ reason: event.reason, at: event.at.toISOString() },
      })),
    })),
    practice: practice.map(({ id, fromBar, toBar, sourceHash, tempo, note, at, removedAt }) => ({
      ...{ entryId: id, at: at.toISOString(), fromBar, toBar, sourceHash },
      ...{ tempo: triedTempoSchema.parse(tempo), note, removedAt: iso(removedAt) },
    })),
  };
}

const iso = (date: Date | null) => date?.toISOString() ?? null;
