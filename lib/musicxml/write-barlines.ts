import type { Bar } from "@/lib/score/bar";
import { element, type XmlElement } from "./xml-tree";

/** Repeat and ending at the left line; null when it is a plain one. */
export function writeLeftBarline({ repeats }: Bar): XmlElement | null {
  const children: XmlElement[] = [];
  if (repeats.startsRepeat) children.push(element("bar-style", {}, "heavy-light"));
  if (repeats.startsEnding) children.push(ending(repeats.startsEnding, "start"));
  if (repeats.startsRepeat) children.push(element("repeat", { direction: "forward" }));
  return children.length === 0 ? null : element("barline", { location: "left" }, ...children);
}

/** @param next the bar after it: a later pickup follows a double line. */
export function writeRightBarline({ repeats }: Bar, next: Bar | null): XmlElement | null {
  const times = repeats.endsRepeatAfter;
  const children: XmlElement[] = [];
  if (times !== null || next === null) children.push(element("bar-style", {}, "light-heavy"));
  else if (next.isPickup && !next.repeats.startsRepeat)
    children.push(element("bar-style", {}, "light-light"));
  if (repeats.stopsEnding) children.push(ending(repeats.stopsEnding, "stop"));
  if (times !== null) {
    children.push(
      element("repeat", { direction: "backward", ...(times === 2 ? {} : { times: `${times}` }) }),
    );
  }
  return children.length === 0 ? null : element("barline", { location: "right" }, ...children);
}

function ending(numbers: readonly number[], type: string): XmlElement {
  return element("ending", { number: numbers.join(", "), type });
}

/** Where jumps lead to, at the start of the bar. */
export function writeJumpTargets({ jumps: { segno, coda } }: Bar): XmlElement | null {
  if (segno === null && coda === null) return null;
  return element("sound", { ...(segno === null ? {} : { segno }), ...(coda === null ? {} : { coda }) });
}

/** The jumps themselves, at the end of the bar. */
export function writeJumps({ jumps }: Bar): XmlElement | null {
  const attributes = {
    ...(jumps.toCoda === null ? {} : { tocoda: jumps.toCoda }),
    ...(jumps.dalSegno === null ? {} : { dalsegno: jumps.dalSegno }),
    ...(jumps.daCapo ? { dacapo: "yes" } : {}),
    ...(jumps.fine ? { fine: "yes" } : {}),
  };
  return Object.keys(attributes).length === 0 ? null : element("sound", attributes);
}
