import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { noQuarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { evenDivisions } from "../cut/even-divisions";
import { insertAt } from "../cut/insert-at";
import { moveCursor } from "../cut/measure-parts";
import { mendAccidentals } from "../cut/mend-accidentals";
import { partEntryOf, partNameOf } from "../cut/part-entry-of";
import { type PartEvent, type PartMusic, readPartEvents } from "../cut/part-events";
import { attributesBefore, findAttributes, withoutIds } from "../cut/running-attributes";
import type { MusicXmlTree } from "../read-tree";
import { child, childElements, cloneElement, element, type XmlElement } from "../xml-tree";
import { findChangedStaves } from "./find-changed-staves";
import type { PlacedNote } from "./note-elements";
import { ossiaId } from "./ossia-part";
import { type SpelledVoice, spellRewrite, timesOf } from "./spelled-rewrite";

/** Of the staff beside it, in percent. Common practice: between 60 and 75. */
const ossiaSize = 65;

/**
 * Adds a part for each staff of a part that rewrites show as an ossia, before it (behind it when it is the top part, by
 * whose measures the bars are known). It holds nothing but what is rewritten: its other bars are hidden rests.
 *
 * @param part of the tree; its divisions are made finer when they have to be.
 */
export function writeOssias(
  tree: MusicXmlTree,
  score: Score,
  part: XmlElement,
  rewrites: readonly RewriteTerms[],
  nextId: (barIndex: number) => string,
): MusicXmlTree {
  const voices = rewrites.flatMap((rewrite) => {
    const staves = findChangedStaves(rewrite, score);
    return spellRewrite(rewrite, score).filter(({ staff }) => staves.has(staff));
  });
  if (voices.length === 0) return tree;
  const music = readPartEvents(part, evenDivisions(part, timesOf(voices)));
  const staves = [...new Set(voices.map(({ staff }) => staff))].sort((a, b) => a - b);
  return staves.reduce((written, staff) => {
    const own = voices.filter((voice) => voice.staff === staff);
    const ossia = writeOssia({ music, score, staff, voices: own, nextId });
    return addPart(written, part, ossia, staff);
  }, tree);
}

interface OssiaJob {
  readonly music: PartMusic;
  readonly score: Score;
  readonly staff: number;
  readonly voices: readonly SpelledVoice[];
  readonly nextId: (barIndex: number) => string;
}

function writeOssia(job: OssiaJob): XmlElement {
  const id = ossiaId(job.music.part.attributes.id ?? "", job.staff);
  const changes = findAttributes(job.music);
  const measures = job.music.bars.map(({ measure, events }, barIndex) => {
    const { number = "", implicit } = measure.attributes;
    const own = element("measure", { number, ...(implicit ? { implicit } : {}), id: job.nextId(barIndex) });
    const voices = job.voices.filter((voice) => voice.barIndex === barIndex);
    const notes = voices.flatMap((voice) => voice.write(writingOf(job, voice)));
    const running = attributesBefore(changes, { barIndex: barIndex + 1, offset: noQuarters });
    const heard = notes.map((note, order): PartEvent => ({ ...note, barIndex, order }));
    mendAccidentals(
      [{ running: onStaffOne(running, job.staff), events: heard }],
      new Set(notes.map(({ node }) => node)),
    );
    own.children =
      notes.length > 0
        ? layOut(notes, barTicks(job, barIndex), job.music.divisions)
        : [hiddenRest(job, barIndex)];
    for (const event of events.filter(({ node }) => node.name === "attributes").toReversed()) {
      const attributes = forStaff(event.node, job.staff);
      const ticks = scaleQuarters(event.at, job.music.divisions).num;
      if (childElements(attributes).length > 0) insertAt(own, ticks, attributes);
    }
    return own;
  });
  const [first] = measures;
  if (first) setUp(first, job.music.divisions);
  return element("part", { id }, ...measures);
}

function writingOf({ music, nextId }: OssiaJob, { voice, barIndex }: SpelledVoice) {
  return { divisions: music.divisions, voice, staff: null, nextId: () => nextId(barIndex) };
}

/** What holds for a staff, as it holds for the one staff of its ossia. */
function onStaffOne(running: ReadonlyMap<string, XmlElement>, staff: number): Map<string, XmlElement> {
  const key = running.get(`key ${staff}`) ?? running.get("key ");
  return new Map(key ? [["key ", key]] : []);
}

/** Voice by voice, with moves where a voice pauses; the bar is always filled. */
function layOut(notes: readonly PlacedNote[], reach: number, divisions: number): XmlElement[] {
  const children: XmlElement[] = [];
  let cursor = 0;
  for (const { node, at, length } of notes) {
    const start = scaleQuarters(at, divisions).num;
    const isMember = child(node, "chord") !== null;
    if (!isMember && start !== cursor) {
      children.push(moveCursor(start > cursor ? "forward" : "backup", Math.abs(start - cursor)));
    }
    children.push(node);
    cursor = start + scaleQuarters(length, divisions).num;
  }
  if (cursor < reach) children.push(moveCursor("forward", reach - cursor));
  return children;
}

function barTicks({ music, score }: OssiaJob, barIndex: number): number {
  const { num, den } = scaleQuarters(score.bars[barIndex]?.length ?? noQuarters, music.divisions);
  return Math.max(1, Math.round(num / den));
}

function hiddenRest(job: OssiaJob, barIndex: number): XmlElement {
  return element(
    "note",
    { "print-object": "no", id: job.nextId(barIndex) },
    element("rest", { measure: "yes" }),
    element("duration", {}, `${barTicks(job, barIndex)}`),
    element("voice", {}, "1"),
  );
}

/** MusicXML 4.0, `attributes`: those that hold for one staff, as the attributes of a part of one staff. */
function forStaff(attributes: XmlElement, staff: number): XmlElement {
  const kept = childElements(attributes).flatMap((attribute) => {
    if (!/^(key|time|clef|transpose)$/.test(attribute.name)) return [];
    const number = attribute.attributes.number ?? (attribute.name === "clef" ? "1" : `${staff}`);
    if (number !== `${staff}`) return [];
    const copy = withoutIds(cloneElement(attribute));
    delete copy.attributes.number;
    return [copy];
  });
  return element("attributes", {}, ...kept);
}

function setUp(first: XmlElement, divisions: number): void {
  const found = child(first, "attributes");
  const attributes = found ?? element("attributes");
  if (!found) first.children.unshift(attributes);
  attributes.children.unshift(element("divisions", {}, `${divisions}`));
  const details = element(
    "staff-details",
    {},
    element("staff-type", {}, "ossia"),
    element("staff-size", {}, `${ossiaSize}`),
  );
  const transpose = attributes.children.findIndex(
    (node) => node.kind === "element" && node.name === "transpose",
  );
  attributes.children.splice(transpose === -1 ? attributes.children.length : transpose, 0, details);
}

function addPart(tree: MusicXmlTree, part: XmlElement, ossia: XmlElement, staff: number): MusicXmlTree {
  const { root } = tree;
  const entry = partEntryOf(tree, part);
  const list = child(root, "part-list");
  const name = `${partNameOf(tree, part) ?? "Piano"}, ossia`;
  const own = element(
    "score-part",
    { id: ossiaId(part.attributes.id ?? "", staff) },
    element("part-name", { "print-object": "no" }, name),
  );
  const isTop = tree.parts[0] === part;
  insertBeside(root, part, ossia, isTop);
  if (list) insertBeside(list, entry, own, isTop);
  return { ...tree, parts: root.children.filter(isPart) };
}

const isPart = (node: XmlElement["children"][number]): node is XmlElement =>
  node.kind === "element" && node.name === "part";

function insertBeside(
  parent: XmlElement,
  beside: XmlElement | null,
  inserted: XmlElement,
  isBehind: boolean,
): void {
  const place = beside ? parent.children.indexOf(beside) : -1;
  if (place === -1) parent.children.push(inserted);
  else parent.children.splice(isBehind ? place + 1 : place, 0, inserted);
}
