import { describe, expect, test } from "vitest";
import { type AnswerPlan, isKeepablePage, keptAddress, planAnswer } from "@/app/_offline/plan-answer";

const origin = "https://desk.test";
const piece = "0192a0a0-0000-7000-8000-000000000000";
const picture = `/api/pieces/${piece}/engraving/abc-123/7`;

interface Asked {
  method?: string;
  mode?: string;
  headers?: Record<string, string>;
}

const cases: [address: string, plan: AnswerPlan, asked?: Asked][] = [
  ["/", "page", { mode: "navigate" }],
  [`/pieces/${piece}?waits`, "page", { mode: "navigate" }],
  [`/pieces/${piece}/editions?from=1&to=2`, "page", { mode: "navigate" }],
  // Not kept, and answered by our own page when there is no connection.
  ["/pieces/new", "page", { mode: "navigate" }],
  [`/pieces/${piece}`, "pass", { mode: "cors" }],
  [`/pieces/${piece}?_rsc=1a2b`, "pass", { mode: "cors" }],
  [`/pieces/${piece}`, "pass", { mode: "cors", headers: { rsc: "1" } }],
  [`/pieces/${piece}`, "pass", { method: "POST", mode: "cors", headers: { "next-action": "x" } }],
  [`/pieces/${piece}`, "pass", { method: "POST", mode: "navigate" }],
  ["/_next/static/chunks/0a1b.js", "content", { mode: "no-cors" }],
  ["/_next/static/media/petrona.woff2", "content"],
  ["/_next/image?url=x", "pass"],
  ["/icon.svg?0f", "content", { mode: "no-cors" }],
  [picture, "content"],
  ["/sound/general-midi-12.0123456789abcdef.sf3", "content"],
  ["/sound/processor.0123456789abcdef.js", "content", { mode: "cors" }],
  ["/sound/general-midi-12.sf3", "pass"],
  [picture, "pass", { method: "HEAD" }],
  [picture, "pass", { headers: { range: "bytes=0-9" } }],
  [`/api/pieces/${piece}/engraving?view=open&layout=phone`, "latest"],
  [`/api/pieces/${piece}/engraving?view=open&layout=phone`, "pass", { method: "DELETE" }],
  [`/api/pieces/${piece}/editions/3/reading?for=soloist`, "latest"],
  [`/api/pieces/${piece}/editions/newest`, "pass"],
  [`/pieces/${piece}/read/3?for=soloist`, "page", { mode: "navigate" }],
  // A reader's link may be taken back: nothing that it opens is kept.
  ["/api/read/abc?for=pianist", "pass"],
  ["/api/read/abc/key/0", "pass"],
  [`/api/pieces/${piece}/room-ticket`, "pass", { method: "POST" }],
  [`/api/pieces/${piece}/room-ticket`, "pass"],
  [`/api/pieces/${piece}/editions/1/pianist.pdf`, "pass", { mode: "navigate" }],
  [`/api/pieces/${piece}/source`, "pass", { mode: "navigate" }],
  ["/api/pieces", "pass", { method: "POST" }],
  ["/api/auth/session", "pass"],
  ["/api/metrics", "pass"],
  ["/api/health", "pass"],
  ["/service-worker.js", "pass", { mode: "same-origin" }],
  ["https://elsewhere.test/_next/static/chunks/0a1b.js", "pass"],
  ["https://elsewhere.test/", "pass", { mode: "navigate" }],
];

test.each(cases)("%s: %s %j", (address, plan, asked = {}) => {
  const { method = "GET", mode = "cors", headers = {} } = asked;
  const url = new URL(address, origin).href;
  expect(planAnswer({ method, url, mode, headers: new Headers(headers) }, origin)).toBe(plan);
});

describe("which pages are kept", () => {
  test.each([
    ["/", true],
    ["/performances", true],
    ["/performances/programme/0199-a", true],
    ["/performances/programme/", false],
    ["/performances/programme/a/b", false],
    [`/pieces/${piece}`, true],
    [`/pieces/${piece}/editions`, true],
    [`/pieces/${piece}/hands`, true],
    [`/pieces/${piece}/history`, true],
    [`/pieces/${piece}/stopwatch`, true],
    [`/pieces/${piece}/read/3`, true],
    [`/pieces/${piece}/read/x`, false],
    ["/read/abc", false],
    // It holds invitations, which are as good as keys.
    [`/pieces/${piece}/settings`, false],
    ["/pieces/new", false],
    ["/sign-in", false],
    ["/invitation/abc", false],
    ["/api/pieces", false],
    [`/pieces/${piece}/editions?from=1&to=2`, false],
    ["//elsewhere.test/", false],
  ])("%s: %s", (address, isKept) => {
    expect(isKeepablePage(address)).toBe(isKept);
  });
});

test("a page is found whatever it is to open at first; an engraving only by its whole address", () => {
  expect(keptAddress(`${origin}/pieces/${piece}?cut=abc#score`, "page")).toBe(`/pieces/${piece}`);
  expect(keptAddress(`${origin}/icon.svg?0f`, "content")).toBe("/icon.svg");
  const engraving = `/api/pieces/${piece}/engraving?view=open&layout=phone`;
  expect(keptAddress(origin + engraving, "latest")).toBe(engraving);
});
