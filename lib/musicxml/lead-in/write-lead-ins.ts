import type { Part } from "@/lib/score/part";
import { addQuarters, compareQuarters, noQuarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { evenDivisions, setText } from "../cut/even-divisions";
import { insertAt } from "../cut/insert-at";
import { insertInNote } from "../cut/insert-in-note";
import { findUnmarked, mendAccidentals } from "../cut/mend-accidentals";
import { isNote, isRest, type PartEvent, type PartMusic, readPartEvents, voiceOf } from "../cut/part-events";
import { attributesBefore, findAttributes } from "../cut/running-attributes";
import { wordsAbove } from "../marks/words-above";
import { copyTree, idMaker, partOf } from "../marks/writable-tree";
import type { MusicXmlTree } from "../read-tree";
import { beamPieces } from "../rewrite/beam-pieces";
import { type PlacedNote, writeNotes } from "../rewrite/note-elements";
import { orderInVoices } from "../rewrite/order-in-voices";
import { ossiaOf } from "../rewrite/ossia-part";
import { rewriteMeasure } from "../rewrite/rewrite-measure";
import { spellVoice } from "../rewrite/spell-voice";
import { child, element, type XmlElement } from "../xml-tree";
import { findEntries } from "./find-entries";
import { type LeadIn, planLeadIn } from "./plan-lead-in";

/** Common practice: after about eight bars of rest a player is glad of a cue. */
const usualRestBars = 8;

/**
 * A piece with the leading line of the reduction in small notes before the soloist's entries after long rests, as a new
 * tree: its highest sounding line in the last one or two bars, at the soloist's written pitch, up to the very entry.
 * What the soloist plays or rests stays as it is. To be done when the cuts are applied, so that it shows what really
 * comes before.
 *
 * @param tree with the solo part and the reduction; take the solo part alone afterwards (`keepParts`).
 * @param score of this very tree, with its roles: `assignRoles(scoreFromTree(tree).score, roles)`.
 * @param options.minimalRestBars silent bars after which an entry gets one; 8 when it is not said.
 */
export function writeLeadIns(
  tree: MusicXmlTree,
  score: Score,
  { minimalRestBars = usualRestBars }: { readonly minimalRestBars?: number } = {},
): MusicXmlTree {
  const solo = score.parts.find(({ role }) => role === "solo");
  const reductions = score.parts.filter(({ role, id }) => role === "reduction" && ossiaOf(id) === null);
  if (!solo || reductions.length === 0) return tree;
  const leadIns = findEntries(score, solo, Math.max(1, minimalRestBars)).flatMap(
    (entry) => planLeadIn(score, solo, reductions, entry) ?? [],
  );
  if (leadIns.length === 0) return tree;
  const copy = copyTree(tree);
  const part = partOf(copy, solo.id);
  const spelled = leadIns.flatMap((leadIn) => spell(leadIn, score));
  const times = spelled.flatMap(({ pieces }) => pieces.flatMap(({ at, length }) => [at, length]));
  const divisions = evenDivisions(part, [...times, ...leadIns.map(({ from }) => from.offset)]);
  const music = readPartEvents(part, divisions);
  const voices = { own: ownVoice(solo), free: freeVoice(music) };
  const writing = { divisions, voice: voices.own, staff: solo.staffCount > 1 ? 1 : null };
  const nextId = idMaker(copy, "c");
  for (const { barIndex, pieces } of spelled) {
    const bar = score.bars[barIndex];
    const beams = bar && beamPieces(pieces, bar);
    const notes = pieces.flatMap((piece) =>
      writeNotes(piece, beams?.get(piece) ?? [], { ...writing, nextId: () => nextId(barIndex) }),
    );
    writeIntoBar(music, barIndex, notes, voices);
  }
  for (const { from, octaves } of leadIns) {
    const measure = music.bars[from.barIndex]?.measure;
    const label = wordsAbove(nameOf(octaves), "lead-in");
    if (measure) insertAt(measure, scaleQuarters(from.offset, divisions).num, label);
  }
  return copy;
}

function spell({ bars }: LeadIn, score: Score) {
  return [...bars].flatMap(([barIndex, events]) => {
    const bar = score.bars[barIndex];
    return bar ? [{ barIndex, pieces: spellVoice(events, bar) }] : [];
  });
}

/** "Pf.", and where it does not sound as it is written. */
function nameOf(octaves: number): string {
  if (octaves === 0) return "Pf.";
  const distance = Math.abs(octaves) === 1 ? "8va" : "15ma";
  return `Pf. (${distance} ${octaves < 0 ? "higher" : "lower"})`;
}

/** The voice that the part has most notes in. */
function ownVoice({ notes }: Part): string {
  const counts = new Map<string, number>();
  for (const { voice } of notes) counts.set(voice, (counts.get(voice) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? "1";
}

/** A voice that the part has nowhere. */
function freeVoice(music: PartMusic): string {
  const used = new Set(music.bars.flatMap(({ events }) => events.filter(isNote).map(voiceOf)));
  let voice = 1;
  while (used.has(`${voice}`)) voice += 1;
  return `${voice}`;
}

/**
 * The small notes go into the player's own voice, which then has no gap, and the rest that the player counts into a
 * second one: the engraver draws it below.
 */
function writeIntoBar(
  music: PartMusic,
  barIndex: number,
  notes: readonly PlacedNote[],
  voices: { readonly own: string; readonly free: string },
): void {
  const bar = music.bars[barIndex];
  const last = notes.at(-1);
  if (!bar || !last) return;
  const end = addQuarters(last.at, last.length);
  const running = attributesBefore(findAttributes(music), { barIndex: barIndex + 1, offset: noQuarters });
  const unmarked = new Set(findUnmarked({ running, events: bar.events }));
  for (const { node } of notes) unmarked.add(node);
  const added = notes.map((note): PartEvent => ({ ...note, barIndex, order: -1 }));
  mendAccidentals([{ running, events: [...added, ...bar.events] }], unmarked);
  for (const { node } of notes) makeSmall(node);
  const [rests, others] = [bar.events.filter(isCounted), bar.events.filter((event) => !isCounted(event))];
  for (const { node } of rests) setVoice(node, voices.free);
  rewriteMeasure(music, barIndex, orderInVoices(bar.events, others, [...added, ...rests]), new Map());

  function isCounted(event: PartEvent): boolean {
    const isOwn = isRest(event) && [voices.own, voices.free].includes(voiceOf(event));
    return isOwn && compareQuarters(event.at, end) < 0;
  }
}

function setVoice(note: XmlElement, voice: string): void {
  const found = child(note, "voice");
  if (found) setText(found, voice);
  else insertInNote(note, element("voice", {}, voice));
}

/** MusicXML 4.0, `note`: a cue has no `tie`, since it does not sound; its size is said by its type too. */
function makeSmall(note: XmlElement): void {
  note.children = note.children.filter((node) => node.kind !== "element" || node.name !== "tie");
  insertInNote(note, element("cue"));
  const type = child(note, "type");
  if (type) type.attributes.size = "cue";
  if (!child(note, "rest")) insertInNote(note, element("stem", {}, "up"));
}
