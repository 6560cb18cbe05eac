import type { IncomingMessage } from "node:http";

export interface Refusal {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly sentence: string;
}

const loopback = new Set(["localhost", "127.0.0.1", "[::1]"]);

/**
 * Why a request is not answered, or null. The product lives at one public address: cookies, links and the
 * check of a request's origin all hang on it, so a request for another host is sent there or refused. A health
 * check may come under any name.
 */
export function findRefusal(request: IncomingMessage, publicUrl: URL): Refusal | null {
  const { host = "", url = "/", method = "GET" } = { host: request.headers.host, ...request };
  if (host === publicUrl.host || url === "/api/health") return null;
  const sentence = `This is Colla Parte. It answers only at ${publicUrl.origin}; whoever runs it sets another address with NEXTAUTH_URL.\n`;
  const isPage = method === "GET" || method === "HEAD";
  if (isPage && isLoopback(host) && isLoopback(publicUrl.host))
    return { status: 307, headers: { location: publicUrl.origin + url }, sentence };
  return { status: 421, headers: { "content-type": "text/plain; charset=utf-8" }, sentence };
}

function isLoopback(host: string): boolean {
  return loopback.has(host.replace(/:\d+$/, ""));
}

/**
 * What proxies report about a request is taken from nobody but our own: the host is always the public one, and
 * the visitor's address is the socket's, or with a trusted proxy the last one it noted.
 */
export function pinForwardedHeaders(
  request: IncomingMessage,
  settings: { publicUrl: URL; trustsProxy: boolean },
): void {
  const { headers, socket } = request;
  const noted = String(headers["x-forwarded-for"] ?? "")
    .split(",")
    .at(-1)
    ?.trim();
  headers["x-forwarded-for"] = (settings.trustsProxy && noted) || socket.remoteAddress || "";
  headers["x-forwarded-host"] = settings.publicUrl.host;
  headers["x-forwarded-proto"] = settings.publicUrl.protocol.slice(0, -1);
  delete headers["x-forwarded-port"];
  delete headers.forwarded;
  delete headers["x-real-ip"];
}
