import type { DigestPiece } from "@/lib/store/digest/due-digest";
import { type News, namesMe } from "@/lib/store/digest/news";
import { plainExcerpt } from "./plain-excerpt";

const titleLetters = 60;

type Sort = "names you" | "comment" | "reply" | "proposal" | "answer" | "edition" | "change";

const proposals = new Set(["cut proposed", "cut counter-proposed", "rewrite proposed"]);
const answers = new Set([
  "cut agreed",
  "cut declined",
  "rewrite agreed",
  "rewrite declined",
  "edition approved",
]);

function sortOf(news: News): Sort {
  if (namesMe(news)) return "names you";
  if (news.kind === "comment" || news.kind === "reply") return news.kind;
  if (news.kind !== "trail") return "change";
  if (proposals.has(news.what)) return "proposal";
  if (answers.has(news.what)) return "answer";
  return news.what === "edition frozen" ? "edition" : "change";
}

const words: readonly (readonly [Sort, one: string, many: string])[] = [
  ["names you", "comment that names you", "comments that name you"],
  ["comment", "new comment", "new comments"],
  ["reply", "reply", "replies"],
  ["proposal", "proposal", "proposals"],
  ["answer", "answer", "answers"],
  ["edition", "new edition", "new editions"],
  ["change", "change", "changes"],
];

/** "Concertino: 2 new comments, 1 answer"; with several pieces "Concertino and 1 more piece: …". */
export function saySubject(pieces: readonly DigestPiece[]): string {
  const sorts = pieces.flatMap(({ news }) => news.map(sortOf));
  const counted = words.flatMap(([sort, one, many]) => {
    const count = sorts.filter((other) => other === sort).length;
    return count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
  });
  return `${sayTitles(pieces)}: ${counted.join(", ")}`;
}

function sayTitles([first, ...more]: readonly DigestPiece[]): string {
  const title = sayTitle(first?.title ?? "");
  if (more.length === 0) return title;
  return `${title} and ${more.length} more ${more.length === 1 ? "piece" : "pieces"}`;
}

/** A piece's title in one line. */
export function sayTitle(title: string): string {
  return plainExcerpt(title, titleLetters) || "A piece without a title";
}
