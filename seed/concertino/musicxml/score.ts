import type { BarPlan } from "../compose";
import { TITLE } from "../movement";
import { type Element, element, serialize } from "./element";
import { type PartContent, partElement } from "./part";

/** Parts that share a bracket, by first and last part id. */
export interface PartGroup {
  readonly first: string;
  readonly last: string;
}

const DOCTYPE =
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';

/** A whole MusicXML 4.0 partwise document. */
export function scoreDocument(
  parts: readonly PartContent[],
  bars: readonly BarPlan[],
  groups: readonly PartGroup[] = [],
): string {
  const root = element(
    "score-partwise",
    { version: "4.0" },
    element("work", {}, element("work-title", {}, TITLE.work)),
    element("movement-title", {}, TITLE.movement),
    element("identification", {}, element("creator", { type: "composer" }, TITLE.composer)),
    element("part-list", {}, partList(parts, groups)),
    parts.map((part, i) => partElement(part, bars, i === 0)),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${DOCTYPE}\n${serialize(root)}`;
}

function partList(parts: readonly PartContent[], groups: readonly PartGroup[]): Element[] {
  return parts.flatMap((part, i) => {
    const number = (group: PartGroup) => groups.indexOf(group) + 1;
    const opening = groups.filter(({ first }) => first === part.id);
    const closing = groups.filter(({ last }) => last === part.id);
    return [
      ...opening.map((group) => groupStart(number(group))),
      scorePart(part, i + 1),
      ...closing.map((group) => element("part-group", { number: number(group), type: "stop" })),
    ];
  });
}

function groupStart(number: number): Element {
  return element(
    "part-group",
    { number, type: "start" },
    element("group-symbol", {}, "bracket"),
    element("group-barline", {}, "yes"),
  );
}

function scorePart(part: PartContent, channel: number): Element {
  const instrument = `${part.id}-I1`;
  return element(
    "score-part",
    { id: part.id },
    element("part-name", {}, part.name),
    element("part-abbreviation", {}, part.abbreviation),
    element(
      "score-instrument",
      { id: instrument },
      element("instrument-name", {}, part.name),
      element("instrument-sound", {}, part.sound),
    ),
    element(
      "midi-instrument",
      { id: instrument },
      element("midi-channel", {}, channel < 10 ? channel : channel + 1),
      element("midi-program", {}, part.program),
    ),
  );
}
