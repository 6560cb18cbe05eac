import { expect, test } from "vitest";
import { contentSecurityPolicy, makeNonce, securityHeaders } from "@/app/_commands/security-headers";

const policy = contentSecurityPolicy("abc", { isDevelopment: false });
const sources = new Map(policy.split("; ").map((rule) => [rule.split(" ")[0], rule.split(" ").slice(1)]));

test("a script runs only when it is ours or carries the nonce", () => {
  expect(sources.get("script-src")).toEqual(["'self'", "'nonce-abc'", "'wasm-unsafe-eval'"]);
  expect(sources.get("object-src")).toEqual(["'none'"]);
  expect(sources.get("base-uri")).toEqual(["'none'"]);
  expect(sources.get("frame-ancestors")).toEqual(["'none'"]);
});

test("nothing may be asked of another host", () => {
  expect(sources.get("default-src")).toEqual(["'self'"]);
  expect(policy).not.toMatch(/https?:|\*/);
});

test("rooms that lie elsewhere may be connected to", () => {
  expect(sources.get("connect-src")).toEqual(["'self'"]);
  const elsewhere = contentSecurityPolicy("abc", { isDevelopment: false, roomsOrigin: "wss://rooms.test" });
  expect(elsewhere).toContain("connect-src 'self' wss://rooms.test;");
});

test("each nonce holds 128 bits and is another one", () => {
  const nonces = Array.from({ length: 50 }, makeNonce);
  expect(new Set(nonces).size).toBe(50);
  for (const nonce of nonces) expect(Buffer.from(nonce, "base64")).toHaveLength(16);
});

test("browsers are held to https only where the product is served over https", () => {
  const names = (url: string) => securityHeaders(policy, new URL(url), "/").map(([name]) => name);
  expect(names("https://desk.test")).toContain("Strict-Transport-Security");
  expect(names("http://localhost:3000")).not.toContain("Strict-Transport-Security");
});

test.each([
  ["/read/abc", true],
  ["/api/read/abc/key/0", true],
  ["/pieces/abc/read/1", false],
  ["/reading", false],
  ["/", false],
])("%s: an address that is a key is neither told nor kept: %s", (pathname, isSecret) => {
  const headers = new Map(securityHeaders(policy, new URL("https://desk.test"), pathname));
  expect(headers.get("Referrer-Policy")).toBe(isSecret ? "no-referrer" : "same-origin");
  expect(headers.get("Cache-Control")).toBe(isSecret ? "private, no-store" : undefined);
  expect(headers.get("X-Robots-Tag")).toBe(isSecret ? "noindex, nofollow" : undefined);
});
