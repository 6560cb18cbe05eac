import { randomBytes } from "node:crypto";

/** A number used once: it marks the scripts of one answer as ours. */
export function makeNonce(): string {
  return randomBytes(16).toString("base64");
}

export interface PolicyOptions {
  readonly isDevelopment: boolean;
  /** Where the rooms lie when they lie elsewhere (`wss://rooms.example.org`); null when here. */
  readonly roomsOrigin?: string | null;
}

/**
 * The policy of one answer. Scripts run only when they come from us, and inline only with this answer's nonce.
 * `wasm-unsafe-eval` lets the engraver's WebAssembly compile; it allows no script. Inline style is allowed: the
 * strip and the score place things with `style` attributes, and style cannot run anything.
 */
export function contentSecurityPolicy(nonce: string, options: PolicyOptions): string {
  // React's development build rebuilds call stacks with eval.
  const development = options.isDevelopment ? " 'unsafe-eval'" : "";
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'wasm-unsafe-eval'${development}`,
    "style-src 'self' 'unsafe-inline'",
    `connect-src 'self'${options.roomsOrigin ? ` ${options.roomsOrigin}` : ""}`,
    "img-src 'self' data: blob:",
    "media-src 'self' blob:",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; ");
}

/** Pages and files that open by an address alone: whoever has it reads them, so it must not get about. */
const opensByAddress = /^\/(api\/)?read\//;

/**
 * Headers of every answer, whoever makes it.
 *
 * @param pathname what is asked for.
 */
export function securityHeaders(
  policy: string,
  publicUrl: URL,
  pathname: string,
): [name: string, value: string][] {
  const isSecret = opensByAddress.test(pathname);
  const headers: [string, string][] = [
    ["Content-Security-Policy", policy],
    ["X-Content-Type-Options", "nosniff"],
    ["X-Frame-Options", "DENY"],
    ["Referrer-Policy", isSecret ? "no-referrer" : "same-origin"],
    ["Cross-Origin-Opener-Policy", "same-origin"],
    ["Cross-Origin-Resource-Policy", "same-origin"],
    ["Permissions-Policy", "camera=(), geolocation=(), microphone=()"],
  ];
  if (isSecret) {
    headers.push(["X-Robots-Tag", "noindex, nofollow"], ["Cache-Control", "private, no-store"]);
  }
  // Two years, as browsers ask for before they take a site into their own lists.
  if (publicUrl.protocol === "https:") headers.push(["Strict-Transport-Security", "max-age=63072000"]);
  return headers;
}
