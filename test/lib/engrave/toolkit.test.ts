import { describe, expect, it } from "vitest";
import { openEngraver } from "@/lib/engrave/toolkit";

describe("openEngraver", () => {
  it("gives the compiled code beside the engraver, and leaves the way to compile as it was", async () => {
    const before = WebAssembly.instantiate;
    const { compiled, toolkit } = await openEngraver();
    expect(WebAssembly.instantiate).toBe(before);
    expect(compiled).toBeInstanceOf(WebAssembly.Module);
    expect(WebAssembly.Module.exports(compiled).map(({ kind }) => kind)).toContain("memory");
    expect(toolkit.getVersion()).toMatch(/^6\.3\.0/);
  });
});
