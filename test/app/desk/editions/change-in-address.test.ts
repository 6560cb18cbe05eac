import { describe, expect, test } from "vitest";
import {
  readChange,
  writeChange,
} from "@/app/(desk)/pieces/[pieceId]/editions/_components/change-in-address";

describe("the change that an address asks for", () => {
  test.each([
    ["change=1", 0],
    ["from=1&to=2&change=3", 2],
    ["change=4", null],
    ["change=0", null],
    ["change=1.5", null],
    ["change=x", null],
    ["", null],
  ])("?%s of three: %s", (query, row) => {
    expect(readChange(new URLSearchParams(query), 3)).toBe(row);
  });
});

describe("the address of a change", () => {
  test.each([
    ["from=1&to=working", 0, "from=1&to=working&change=1"],
    ["from=1&change=1&bar=X1", 2, "from=1&change=3&bar=X1"],
    ["from=1&change=1", null, "from=1"],
    ["", null, ""],
  ])("?%s, row %s: ?%s", (asked, chosen, query) => {
    const params = new URLSearchParams(asked);
    expect(writeChange(params, chosen)).toBe(query);
    // What the router knows is its own.
    expect(params.toString()).toBe(asked);
  });
});
