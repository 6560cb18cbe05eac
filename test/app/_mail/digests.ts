import { quarters } from "@/lib/score/quarters";
import type { DigestPiece, DueDigest } from "@/lib/store/digest/due-digest";
import type { CommentNews, TrailNews } from "@/lib/store/digest/news";

const at = new Date("2026-03-14T08:00:00Z");

export const settings = {
  publicUrl: new URL("https://colla.test"),
  secret: "a secret of this test",
  from: { name: "Colla Parte", address: "post@colla.test" },
};

/** A comment on bars 3 to 5 of the pianist's. */
export function commentNews(text: string, fields: Partial<CommentNews> = {}): CommentNews {
  const span = { from: { barIndex: 2, offset: quarters(0) }, to: { barIndex: 5, offset: quarters(0) } };
  return { kind: "comment", at, byId: "pianist", text, span, namesMe: false, ...fields };
}

export function trailNews(what: string, number: number | null = null): TrailNews {
  return { kind: "trail", at, byId: "pianist", what, number };
}

export function digestPiece(fields: Partial<DigestPiece> = {}): DigestPiece {
  return {
    pieceId: "p1",
    title: "Concertino",
    news: [commentNews("More time here?")],
    people: new Map([
      ["pianist", "Ilse Brandow"],
      ["coach", "Petra Lund"],
    ]),
    barLabels: ["1", "2", "3", "4", "5", "6"],
    before: null,
    after: { sequence: 1, at },
    ...fields,
  };
}

export function dueDigest(fields: Partial<DueDigest> = {}): DueDigest {
  return {
    userId: "soloist",
    name: "Corin Vasey",
    email: "corin@colla.test",
    pieces: [digestPiece()],
    key: "0123456789abcdef".repeat(4),
    ...fields,
  };
}
