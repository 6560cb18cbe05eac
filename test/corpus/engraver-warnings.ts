import { vi } from "vitest";
import type { EngraveLayout } from "@/lib/engrave/engrave-layout";
import { engraveSystems } from "@/lib/engrave/engrave-systems";
import { type Engraver, openEngraver } from "@/lib/engrave/toolkit";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";

const layout: EngraveLayout = {
  systemUnits: 300,
  spacing: 0.6,
  barNumbers: "every-bar",
  firstLabels: "full",
  takesWantedBreaks: false,
  fillsLastSystem: false,
};

let engraver: Engraver | null = null;

/** What the engraver says of a piece while it loads and draws it, without ids; it talks to the console. */
export async function engraverWarnings(tree: MusicXmlTree): Promise<string[]> {
  engraver ??= await openEngraver();
  const said: string[] = [];
  const spies = (["log", "info", "warn", "error"] as const).map((name) =>
    vi.spyOn(console, name).mockImplementation((...words: unknown[]) => {
      said.push(words.join(" "));
    }),
  );
  try {
    // Engraving changes its tree, and a file is what is engraved.
    const read = readTree(new TextEncoder().encode(writeTree(tree)));
    if (!read.ok) throw new Error(read.problem.kind);
    const systems = [...engraveSystems(engraver.toolkit, read.value, layout, {})];
    if (systems.length === 0) said.push("nothing was drawn");
  } catch (error) {
    // The engraver does not survive a fault of its own.
    if (error instanceof WebAssembly.RuntimeError) engraver = null;
    said.push(`failed: ${error instanceof Error ? error.message : String(error)}`);
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
  return [...new Set(said.flatMap((text) => text.split("\n")).map(withoutPlaces))].filter(
    (text) => text !== "",
  );
}

/** Ids and bars are other ones in every excerpt. */
const withoutPlaces = (text: string): string =>
  text
    .replace(/['"][^'"]*['"]/g, "…")
    .replace(/#?\b[a-z]\d[\w-]*/g, "…")
    .replace(/\d+/g, "0")
    .trim();
