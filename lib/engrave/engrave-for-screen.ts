import { applyCuts } from "@/lib/musicxml/cut/apply-cuts";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { type ScreenLayoutName, screenLayouts } from "./engrave-layout";
import type { ScreenMusic } from "./engrave-message";
import { engraveSystems } from "./engrave-systems";
import { engraverVersion } from "./engraver-version";
import type { EngravedSystem, ScreenEngraving } from "./screen-engraving";
import type { Engraver } from "./toolkit";

/** Share of the time that reading and laying out take, before the first system can be drawn. Measured on 600 bars. */
const layoutShare = 0.7;

/** Engraves a score for a screen; to be run in the thread that engraves. See `engraveScreen`. */
export function engraveForScreen(
  toolkit: Engraver["toolkit"],
  music: ScreenMusic,
  layout: ScreenLayoutName,
  onProgress: (progress: number) => void,
  onSystem: (system: EngravedSystem, systemCount: number) => void,
): ScreenEngraving {
  const tree = readMusic(music);
  onProgress(0.1);
  let systemCount = 0;
  const systems: EngravedSystem[] = [];
  const onLoaded = (count: number) => {
    systemCount = count;
  };
  const condensesRests = "musicXml" in music && music.condensesRests === true;
  for (const system of engraveSystems(toolkit, tree, screenLayouts[layout], { onLoaded, condensesRests })) {
    systems.push(system);
    onSystem(system, systemCount);
    onProgress(layoutShare + (1 - layoutShare) * (systems.length / systemCount));
  }
  return { rendererVersion: engraverVersion, systems };
}

function readMusic(music: ScreenMusic): MusicXmlTree {
  const bytes = "source" in music ? music.source : new TextEncoder().encode(music.musicXml);
  const tree = readTree(bytes);
  if (!tree.ok) throw new Error(sayReadProblem(tree.problem));
  if (!("source" in music)) return tree.value;
  return applyCuts(keepParts(tree.value, music.partIds), music.cuts, { marks: true }).tree;
}
