import type { DigestPiece } from "@/lib/store/digest/due-digest";
import type { CommentNews, News, PencilNews, TrailNews } from "@/lib/store/digest/news";
import { plainExcerpt } from "./plain-excerpt";

/** Letters of a comment that a message quotes: enough to know which one it is. */
const quotedLetters = 90;
const nameLetters = 60;
/** Lines a piece has in a message. */
const mostLines = 12;

/** The news of one piece in sentences, in the order in which they happened; pencil work of one person is counted together. */
export function sayNews(piece: DigestPiece): string[] {
  const said = [
    ...piece.news.filter((news) => news.kind !== "trail").filter(isComment),
    ...piece.news.filter((news) => news.kind === "trail"),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
  const lines = [...said.map((news) => sayOne(piece, news)), ...sayPencilWork(piece)];
  if (lines.length <= mostLines) return lines;
  const shown = lines.slice(0, mostLines - 1);
  return [...shown, `And ${lines.length - shown.length} more.`];
}

function isComment(news: News): news is CommentNews {
  return "text" in news;
}

function sayOne(piece: DigestPiece, news: CommentNews | TrailNews): string {
  const who = nameOf(piece, news.byId);
  return news.kind === "trail" ? sayTrail(who, news) : sayComment(piece, who, news);
}

function nameOf({ people }: DigestPiece, userId: string): string {
  return plainExcerpt(people.get(userId) ?? "", nameLetters) || "Somebody";
}

const commentVerbs: Readonly<Record<CommentNews["kind"], string>> = {
  comment: "",
  reply: " replies",
  reworded: " reworded a comment",
};

function sayComment(piece: DigestPiece, who: string, news: CommentNews): string {
  const verb = news.namesMe ? " names you" : commentVerbs[news.kind];
  return `${who}${verb} ${sayWhere(piece, news)}: “${plainExcerpt(news.text, quotedLetters)}”`;
}

/** "on bars 85–96". A span that ends on a bar line ends with the bar before. */
function sayWhere({ barLabels }: DigestPiece, { span }: CommentNews): string {
  if (span === null) return "about a cut";
  const { from, to } = span;
  const endsOnLine = to.offset.num === 0 && to.barIndex > from.barIndex;
  const first = barLabels[from.barIndex];
  const last = barLabels[endsOnLine ? to.barIndex - 1 : to.barIndex];
  if (!first || !last) return "on the score";
  return first === last ? `on bar ${first}` : `on bars ${first}–${last}`;
}

const trailWords: Readonly<Record<string, (number: number | null) => string>> = {
  "cut proposed": (number) => `proposes cut ${number}.`,
  "cut counter-proposed": (number) => `counter-proposes cut ${number}.`,
  "cut agreed": (number) => `agrees to cut ${number}.`,
  "cut declined": (number) => `declines cut ${number}.`,
  "cut withdrawn": (number) => `withdrew cut ${number}.`,
  "cut reopened": (number) => `reopened cut ${number}.`,
  "rewrite told": (number) => `plays something else than the print: rewrite ${number}.`,
  "rewrite proposed": (number) => `proposes rewrite ${number}.`,
  "rewrite agreed": (number) => `agrees to rewrite ${number}.`,
  "rewrite declined": (number) => `declines rewrite ${number}.`,
  "rewrite withdrawn": (number) => `withdrew rewrite ${number}.`,
  "rewrite reopened": (number) => `reopened rewrite ${number}.`,
  "rewrite taken back": (number) => `took rewrite ${number} back.`,
  "rewrite taken off": (number) => `took rewrite ${number} off.`,
  "rewrite brought back": (number) => `brought rewrite ${number} back.`,
  "edition approved": (number) => `agrees to freeze № ${number}.`,
  "edition frozen": (number) => `gave the second yes: № ${number} is frozen.`,
  "edition brought back": (number) => `brought № ${number} back as a proposal.`,
  "branch begun": () => "prepares the piece for another occasion.",
  "occasion named": () => "named the occasion that it is prepared for.",
  "invitation accepted": () => "joined.",
  "member removed": () => "ended a membership.",
  "limit set": () => "set the time limit.",
  "long tutti set": () => "set from when a tutti is long.",
  "tempi set": () => "changed the tempi.",
  "parts set": () => "changed what the parts are for.",
  "full score attached": () => "laid a full score beside it.",
  "performance logged": (number) => `entered a performance of № ${number}.`,
  "real time recorded": (number) =>
    `entered how long the performance${number === null ? "" : ` of № ${number}`} took.`,
  "performance changed": (number) => `changed what is written about a performance of № ${number}.`,
  "performance taken off": (number) => `took a performance of № ${number} off.`,
  "performance brought back": (number) => `brought a performance of № ${number} back.`,
  "stopwatch recorded": (number) => `timed № ${number} section by section.`,
};

function sayTrail(who: string, { what, number }: TrailNews): string {
  const words = trailWords[what];
  // The trail is written by us alone, so an entry without words of its own is still said in plain ones.
  return words ? `${who} ${words(number)}` : `${who}: ${what}.`;
}

function sayPencilWork(piece: DigestPiece): string[] {
  const counts = new Map<string, Record<PencilNews["kind"], number>>();
  for (const news of piece.news) {
    if (isComment(news) || news.kind === "trail") continue;
    const mine = counts.get(news.byId) ?? { "pencilled-cut": 0, breath: 0, cue: 0, resolution: 0 };
    counts.set(news.byId, { ...mine, [news.kind]: mine[news.kind] + 1 });
  }
  return [...counts].map(([userId, count]) => {
    const marks = new Intl.ListFormat("en-GB", { type: "conjunction" }).format([
      ...sayCount(count.breath, "breath mark"),
      ...sayCount(count.cue, "cue"),
      ...sayCount(count["pencilled-cut"], "pencilled cut"),
    ]);
    const settled = sayCount(count.resolution, "comment").map((some) => `settled or reopened ${some}`);
    return `${nameOf(piece, userId)} ${[...(marks ? [`worked on ${marks}`] : []), ...settled].join("; ")}.`;
  });
}

function sayCount(count: number, thing: string): string[] {
  if (count === 0) return [];
  return [count === 1 ? `a ${thing}` : `${count} ${thing}s`];
}
