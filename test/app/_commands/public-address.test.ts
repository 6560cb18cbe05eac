import type { IncomingMessage } from "node:http";
import { describe, expect, test } from "vitest";
import { findRefusal, pinForwardedHeaders } from "@/app/_commands/public-address";

const local = new URL("http://localhost:3000");
const online = new URL("https://desk.test");

function request(headers: Record<string, string>, url = "/pieces", method = "GET"): IncomingMessage {
  return { headers, url, method, socket: { remoteAddress: "192.0.2.7" } } as unknown as IncomingMessage;
}

describe("findRefusal", () => {
  test.each([
    [local, "localhost:3000", null],
    [online, "desk.test", null],
    [local, "127.0.0.1:3000", 307],
    [local, "[::1]:3000", 307],
    [local, "evil.test", 421],
    [local, "localhost.evil.test:3000", 421],
    [online, "localhost:3000", 421],
    [online, "desk.test:8443", 421],
  ])("at %s, a page asked for under %s → %s", (publicUrl, host, status) => {
    expect(findRefusal(request({ host }), publicUrl)?.status ?? null).toBe(status);
  });

  test("people who typed another name of this machine are sent to the public one, place kept", () => {
    const refusal = findRefusal(request({ host: "127.0.0.1:3000" }, "/pieces/7?at=12"), local);
    expect(refusal?.headers.location).toBe("http://localhost:3000/pieces/7?at=12");
  });

  test("nothing that changes something is sent on", () => {
    expect(findRefusal(request({ host: "127.0.0.1:3000" }, "/pieces", "POST"), local)?.status).toBe(421);
  });

  test("a request without a host is refused; a health check may come under any name", () => {
    expect(findRefusal(request({}), local)?.status).toBe(421);
    expect(findRefusal(request({ host: "10.0.0.5" }, "/api/health"), online)).toBeNull();
  });
});

describe("pinForwardedHeaders", () => {
  const forged = {
    "x-forwarded-for": "203.0.113.9, 198.51.100.4",
    "x-forwarded-host": "evil.test",
    "x-forwarded-proto": "http",
    "x-forwarded-port": "1",
    "x-real-ip": "203.0.113.9",
    forwarded: "for=203.0.113.9",
  };

  test("what a visitor claims is not believed", () => {
    const asked = request({ ...forged });
    pinForwardedHeaders(asked, { publicUrl: online, trustsProxy: false });
    expect(asked.headers).toEqual({
      "x-forwarded-for": "192.0.2.7",
      "x-forwarded-host": "desk.test",
      "x-forwarded-proto": "https",
    });
  });

  test("with a proxy of ours, the visitor is who that proxy saw: the last one noted", () => {
    const asked = request({ ...forged });
    pinForwardedHeaders(asked, { publicUrl: online, trustsProxy: true });
    expect(asked.headers["x-forwarded-for"]).toBe("198.51.100.4");
    expect(asked.headers["x-forwarded-host"]).toBe("desk.test");
  });
});
