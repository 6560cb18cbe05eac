/** A message taken apart, written from RFC 5322, 2045, 2046 and 2047 and knowing nothing of what composed it. */
export interface ReadMail {
  /** Unfolded and decoded; a name that occurs twice has both. */
  readonly headers: ReadonlyMap<string, string[]>;
  readonly parts: ReadonlyMap<string, string>;
}

/**
 * Reads a message strictly.
 *
 * @throws Error for what the standards do not allow: bare line ends, long lines, controls, a header without a name.
 */
export function readMail(bytes: Uint8Array): ReadMail {
  const text = Buffer.from(bytes).toString("latin1");
  checkLines(text);
  const { headers, body } = splitHead(text);
  return { headers, parts: new Map(readParts(headers, body)) };
}

function checkLines(text: string): void {
  if (/(?<!\r)\n|\r(?!\n)/.test(text)) throw new Error("a line end that is not CRLF");
  for (const line of text.split("\r\n")) {
    // RFC 5322, 2.1.1: 998 without the line end.
    if (line.length > 998) throw new Error(`a line of ${line.length} characters`);
    if (/[^\t\x20-\x7e]/.test(line)) throw new Error(`not plain ASCII: ${JSON.stringify(line)}`);
  }
}

function splitHead(text: string): { headers: Map<string, string[]>; body: string } {
  const end = text.indexOf("\r\n\r\n");
  if (end < 0) throw new Error("no empty line after the headers");
  const unfolded = text.slice(0, end).replace(/\r\n(?=[ \t])/g, "");
  const headers = new Map<string, string[]>();
  for (const line of unfolded.split("\r\n")) {
    const [, name, value = ""] = /^([!-9;-~]+):[ \t]*(.*)$/.exec(line) ?? [];
    if (name === undefined) throw new Error(`not a header: ${JSON.stringify(line)}`);
    const key = name.toLowerCase();
    headers.set(key, [...(headers.get(key) ?? []), decodeWords(value)]);
  }
  return { headers, body: text.slice(end + 4) };
}

/** RFC 2047: space between two encoded words is none. */
function decodeWords(value: string): string {
  const joined = value.replace(/(\?=)[ \t]+(?==\?)/g, "$1");
  return joined.replace(/=\?utf-8\?([BQ])\?([^? ]*)\?=/gi, (_all, coding: string, data: string) =>
    coding.toUpperCase() === "B"
      ? Buffer.from(data, "base64").toString("utf8")
      : fromQuoted(data.replaceAll("_", " ")),
  );
}

function fromQuoted(text: string): string {
  const bytes = text
    .replace(/=\r\n/g, "")
    .replace(/=([0-9A-F]{2})/gi, (_all, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  return Buffer.from(bytes, "latin1").toString("utf8");
}

function readParts(headers: ReadonlyMap<string, string[]>, body: string): [type: string, text: string][] {
  const [type = "text/plain"] = headers.get("content-type") ?? [];
  const [, boundary] = /^multipart\/[a-z]+;.*boundary="?([^";]+)"?/.exec(type) ?? [];
  if (boundary === undefined) return [[type.split(";")[0] ?? "", decodeBody(headers, body)]];
  const pieces = `\r\n${body}`.split(`\r\n--${boundary}`);
  if (!pieces.at(-1)?.startsWith("--")) throw new Error("the last part is not closed");
  return pieces.slice(1, -1).flatMap((piece) => {
    const part = splitHead(piece.replace(/^\r\n/, ""));
    return readParts(part.headers, part.body);
  });
}

function decodeBody(headers: ReadonlyMap<string, string[]>, body: string): string {
  const [coding = "7bit"] = headers.get("content-transfer-encoding") ?? [];
  switch (coding.toLowerCase()) {
    case "base64":
      return Buffer.from(body, "base64").toString("utf8");
    case "quoted-printable":
      return fromQuoted(body);
    case "7bit":
      return body;
    default:
      throw new Error(`a body in ${coding}`);
  }
}
