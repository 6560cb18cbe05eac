import { describe, expect, test } from "vitest";
import { findFiles } from "@/app/_offline/keep-piece";
import { sayKeptAt, withKeptAt } from "@/app/_offline/kept-at";
import { notKeptPage } from "@/app/_offline/not-kept-page";
import { viewerMeta } from "@/app/_offline/viewer-meta";
import { workerMessageSchema } from "@/app/_offline/worker-message";

describe("a kept page", () => {
  test("names the files it is made of, in its tags and in what it tells its scripts", () => {
    const html = `<link rel="stylesheet" href="/_next/static/chunks/a-1.css"/>
      <script src="/_next/static/chunks/b~2.js" async=""></script>
      <script>self.__next_f.push([1,"1:I[5,[\\"/_next/static/chunks/c.3.js\\",\\"/_next/static/chunks/b~2.js\\"]]"])</script>
      <link rel="preload" as="font" href="/_next/static/media/d.woff2"/><a href="/_next/data/x.json">`;
    const names = ["a-1.css", "b~2.js", "c.3.js"].map((name) => `/_next/static/chunks/${name}`);
    expect(findFiles(html)).toEqual([...names, "/_next/static/media/d.woff2"]);
  });

  test("says of when it is; nothing but a time gets into it", () => {
    const at = "2026-11-24T14:05:00.000Z";
    expect(withKeptAt('<html><head class="x"><title>A</title></head>', at)).toBe(
      `<html><head class="x"><meta name="colla-kept-at" content="${at}"/><title>A</title></head>`,
    );
    expect(() => withKeptAt("<head>", '"><script>')).toThrow(RangeError);
  });

  test.each([
    [new Date(2026, 10, 24, 14, 5), "Tue 14:05"],
    [new Date(2026, 10, 3, 9, 0), "3 Nov 09:00"],
  ])("%s is said as %s", (at, words) => {
    expect(sayKeptAt(at, new Date(2026, 10, 26, 12, 0))).toBe(words);
  });

  test("is looked through for the person it is of", () => {
    expect(viewerMeta("u-1")).toBe('<meta name="colla-viewer" content="u-1"');
  });
});

describe("the page in place of one that is not kept", () => {
  test.each([
    ["/pieces/0192a0a0", /this piece is not kept/],
    ["/pieces/0192a0a0/settings", /this piece is not kept/],
    ["/pieces/new", /this page is not kept/],
    ["/sign-in", /this page is not kept/],
  ])("%s", async (path, words) => {
    const answer = notKeptPage(path);
    const html = await answer.text();
    expect(html).toMatch(words);
    expect(html).not.toContain(path);
    expect(html).not.toMatch(/<script|https?:/);
    expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
    expect(answer.headers.get("cache-control")).toBe("no-store");
  });
});

test.each([
  [{ kind: "here", userId: "u-1" }, true],
  [{ kind: "keep", userId: "u", pieceId: null, pages: ["/"], files: [], engravings: [] }, true],
  [
    { kind: "keep", userId: "u", pieceId: null, pages: ["//elsewhere.test"], files: [], engravings: [] },
    false,
  ],
  [
    {
      kind: "keep",
      userId: "u",
      pieceId: null,
      pages: ["https://elsewhere.test"],
      files: [],
      engravings: [],
    },
    false,
  ],
  [
    { kind: "keep", userId: "u", pieceId: null, pages: Array(13).fill("/"), files: [], engravings: [] },
    false,
  ],
  [{ kind: "forget-piece", pieceId: "../x" }, false],
  [{ kind: "forget-all" }, true],
  ["forget-all", false],
])("a page tells the worker %j: %s", (message, isRead) => {
  expect(workerMessageSchema.safeParse(message).success).toBe(isRead);
});
