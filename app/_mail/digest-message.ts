import type { DueDigest } from "@/lib/store/digest/due-digest";
import { makeUnsubscribeToken } from "@/lib/store/digest/unsubscribe-token";
import { escapeHtml } from "./escape-html";
import { plainExcerpt } from "./plain-excerpt";
import type { MailSettings } from "./read-mail-settings";
import { sayNews } from "./say-news";
import { saySubject, sayTitle } from "./say-subject";

/** A message before it is composed. Every text in it is one line without controls. */
export interface Message {
  readonly to: { readonly name: string; readonly address: string };
  readonly subject: string;
  readonly text: string;
  readonly html: string;
  /** Without angle brackets. */
  readonly id: string;
  /** Ends these messages when it is posted to, without a sign-in (RFC 8058). */
  readonly unsubscribeUrl: string;
}

/** A paragraph, a link or a list: what both forms of the message are written from. */
type Block =
  | { readonly kind: "say"; readonly text: string }
  | { readonly kind: "title"; readonly text: string }
  | { readonly kind: "list"; readonly lines: readonly string[] }
  | { readonly kind: "link"; readonly text: string; readonly url: string };

/** What a person is told, in words. */
export function writeDigest(
  digest: DueDigest,
  settings: Pick<MailSettings, "publicUrl" | "secret" | "from">,
): Message {
  const { publicUrl, secret } = settings;
  const token = makeUnsubscribeToken(digest.userId, secret);
  const blocks = blocksOf(digest, publicUrl, token);
  return {
    to: { name: plainExcerpt(digest.name, 60), address: digest.email },
    subject: saySubject(digest.pieces),
    text: blocks.map(asText).join("\n\n"),
    html: asPage(blocks),
    id: `${digest.key}@${publicUrl.hostname}`,
    unsubscribeUrl: new URL(`/api/unsubscribe/${token}`, publicUrl).href,
  };
}

function blocksOf({ pieces }: DueDigest, publicUrl: URL, token: string): Block[] {
  const link = (text: string, path: string): Block => ({
    kind: "link",
    text,
    url: new URL(path, publicUrl).href,
  });
  const [first] = pieces;
  const settings = first ? `/pieces/${encodeURIComponent(first.pieceId)}/settings#news` : "/";
  return [
    { kind: "say", text: "While you were away:" },
    ...pieces.flatMap((piece): Block[] => [
      { kind: "title", text: sayTitle(piece.title) },
      { kind: "list", lines: sayNews(piece) },
      link("Open the piece", `/pieces/${encodeURIComponent(piece.pieceId)}`),
    ]),
    {
      kind: "say",
      text: "One such message in four hours at most; when somebody names you, one in half an hour.",
    },
    link("No more of them", `/unsubscribe/${token}`),
    link("Settings", settings),
  ];
}

function asText(block: Block): string {
  switch (block.kind) {
    case "list":
      return block.lines.map((line) => `- ${line}`).join("\n");
    case "link":
      return `${block.text}: ${block.url}`;
    default:
      return block.text;
  }
}

function asHtml(block: Block): string {
  switch (block.kind) {
    case "say":
      return `<p>${escapeHtml(block.text)}</p>`;
    case "title":
      return `<h2>${escapeHtml(block.text)}</h2>`;
    case "list":
      return `<ul>\n${block.lines.map((line) => `<li>${escapeHtml(line)}</li>`).join("\n")}\n</ul>`;
    case "link":
      return `<p><a href="${escapeHtml(block.url)}">${escapeHtml(block.text)}</a></p>`;
  }
}

/** Words and links, nothing that is fetched or run: no pictures, no style, no script. */
function asPage(blocks: readonly Block[]): string {
  const body = blocks.map(asHtml).join("\n");
  return `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>Colla Parte</title></head>\n<body>\n${body}\n</body></html>\n`;
}
