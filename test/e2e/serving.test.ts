import http from "node:http";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { WebSocket } from "ws";
import { findBrowser, launchBrowser, missingBrowser } from "@/test/setup/browser";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type RunningProduct, startProduct } from "@/test/setup/start-product";

let database: FreshDatabase;
let product: RunningProduct;

beforeAll(async () => {
  database = await createFreshDatabase();
  product = await startProduct({ databaseUrl: database.url });
});

afterAll(async () => {
  await product?.stop();
  await database?.drop();
});

interface Answer {
  readonly status: number;
  readonly headers: http.IncomingHttpHeaders;
  readonly text: string;
}

/** A plain request, as fetch would not let us name another host. */
function ask(path: string, headers: Record<string, string> = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const request = http.get({ host: "127.0.0.1", port: product.port, path, headers }, async (response) => {
      let text = "";
      for await (const piece of response.setEncoding("utf8")) text += piece;
      resolve({ status: response.statusCode ?? 0, headers: response.headers, text });
    });
    request.once("error", reject);
  });
}

/** How the server takes a request to open a websocket. */
function openSocket(path: string): Promise<string> {
  return new Promise((resolve) => {
    const socket = new WebSocket(`ws://127.0.0.1:${product.port}${path}`, {
      headers: { origin: product.url },
    });
    socket.once("open", () => {
      socket.terminate();
      resolve("open");
    });
    socket.once("unexpected-response", (_, response) => resolve(String(response.statusCode)));
    socket.once("error", (error) => resolve(error.message));
  });
}

const ours = () => ({ host: `localhost:${product.port}` });

describe("the served product", () => {
  test("marks each of its scripts with a nonce of its own answer", async () => {
    const [one, two] = [await ask("/sign-in", ours()), await ask("/sign-in", ours())];
    expect(one.status).toBe(200);
    const [, nonce] = /'nonce-([^']+)'/.exec(one.headers["content-security-policy"] as string) ?? [];
    const scripts = one.text.match(/<script[^>]*>/g) ?? [];
    expect(scripts.length).toBeGreaterThan(2);
    for (const script of scripts) expect(script).toContain(`nonce="${nonce}"`);
    expect(two.text).not.toContain(nonce);
  });

  test("ignores a policy that the request brings along", async () => {
    const forged = { ...ours(), "content-security-policy": "script-src 'nonce-forged'" };
    expect((await ask("/sign-in", forged)).text).not.toContain("forged");
  });

  test("says nothing of what it is made with, and forbids sniffing and framing", async () => {
    const { headers } = await ask("/sign-in", ours());
    expect(headers).toMatchObject({ "x-content-type-options": "nosniff", "x-frame-options": "DENY" });
    expect(headers).not.toHaveProperty("x-powered-by");
  });

  test("answers under its public name only, except to health checks", async () => {
    expect(await ask("/sign-in", { host: "evil.test" })).toMatchObject({ status: 421 });
    const other = await ask("/sign-in", { host: `127.0.0.1:${product.port}` });
    expect(other).toMatchObject({ status: 307, headers: { location: `${product.url}/sign-in` } });
    const health = await ask("/api/health", { host: "10.0.0.5" });
    expect(health.status).toBe(200);
    expect(JSON.parse(health.text)).toMatchObject({ ok: true });
  });

  test.each(["/", "/elsewhere", "/_next/hmr", "/roomsx"])(
    "closes an upgrade it does not know: %s",
    async (path) => {
      expect(await openSocket(path)).toBe("socket hang up");
    },
  );

  test("turns a stranger away from a room", async () => {
    expect(await openSocket("/rooms/0192a0a0-0000-7000-8000-000000000000")).toMatch(/^40[134]$/);
  });

  test("ends cleanly when asked, and comes back under its address", async () => {
    const { port } = product;
    await product.stop();
    await expect(ask("/api/health")).rejects.toThrow("ECONNREFUSED");
    product = await startProduct({ databaseUrl: database.url, port });
    expect((await ask("/api/health")).status).toBe(200);
  });
});

const browserPath = await findBrowser();
if (!browserPath) console.warn(missingBrowser);

describe.skipIf(!browserPath)("in a browser", () => {
  test("its own scripts run and foreign ones do not", async () => {
    const browser = await launchBrowser(browserPath ?? "");
    try {
      const page = await browser.newPage();
      const complaints: string[] = [];
      page.on("console", (message) => complaints.push(message.text()));
      await page.goto(`${product.url}/sign-in`, { waitUntil: "networkidle" });
      expect(complaints.filter((text) => /Content Security Policy/i.test(text))).toEqual([]);
      await page.evaluate(() => {
        const script = document.createElement("script");
        script.textContent = "window.foreign = true";
        document.body.append(script);
      });
      expect(await page.evaluate(() => "foreign" in window)).toBe(false);
      expect(complaints.join()).toMatch(/Content Security Policy/i);
    } finally {
      await browser.close();
    }
  });
});
