import type { Desk, DeskPerson } from "@/app/_data/desk/desk";
import type { PresentPerson } from "@/app/_room/room-view";
import { namePlace } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import type { ScoreCue, ScoreCues } from "@/app/_ui/score/score-cue";
import type { BarPin } from "@/app/_ui/score/score-pin";
import type { StripBreath, StripLook, StripNote, StripPiece } from "@/app/_ui/strip/strip-piece";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { Breath } from "@/lib/room/breath";
import type { Comment } from "@/lib/room/comment";
import type { Cue } from "@/lib/room/cue";
import type { PencilledCut } from "@/lib/room/pencilled-cut";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import { pencilsOnStrip } from "../_cuts/desk-pencils";
import { endOf } from "../_cuts/score-cuts";
import { spanOfComment } from "../_talk/span-of-comment";
import { firstName } from "./person";

/** Comments about bars that are shown as marks: first words, neither deleted nor resolved. */
export function openSpanComments(comments: readonly Comment[]): Comment[] {
  return comments.filter(
    ({ about, replyTo, deletedAt, resolvedBy }) =>
      about.kind === "span" && replyTo === null && deletedAt === null && resolvedBy === null,
  );
}

function inkOfAuthor(people: readonly DeskPerson[], userId: string) {
  return inkOf(people.find((person) => person.userId === userId)?.role ?? "");
}

/** The marks over the bars of the score, one a bar. */
export function barPins(comments: readonly Comment[], people: readonly DeskPerson[]): BarPin[] {
  const pins = new Map<number, BarPin>();
  for (const comment of openSpanComments(comments)) {
    const span = spanOfComment(comment);
    if (!span) continue;
    const before = pins.get(span.firstBar);
    pins.set(span.firstBar, {
      barIndex: span.firstBar,
      ink: before?.ink ?? inkOfAuthor(people, comment.authorId),
      ids: [...(before?.ids ?? []), comment.id],
    });
  }
  return [...pins.values()].sort((a, b) => a.barIndex - b.barIndex);
}

/** The cues over the reduction, in the order of the page, each in its writer's ink. */
export function cuesOnScore(
  { bars, people, cueStaff }: Pick<Desk, "bars" | "people" | "cueStaff">,
  cues: readonly Cue[],
): ScoreCues {
  const list = cues.map(({ id, at, text, authorId }): ScoreCue => {
    const place = toPositionTerms(at);
    const writer = people.find(({ userId }) => userId === authorId);
    const label = [`Cue ${text}`, namePlace(bars, place), writer && firstName(writer)].filter(Boolean);
    return { id, text, at: endOf(bars, place), ink: inkOfAuthor(people, authorId), label: label.join(", ") };
  });
  return { list, staff: cueStaff };
}

/** The strip with what stands in the room laid on it: comments, breaths and pencilled cuts. */
export function withRoom(
  desk: Pick<Desk, "strip" | "bars" | "people">,
  room: {
    readonly comments: readonly Comment[];
    readonly breaths: readonly Breath[];
    readonly pencilledCuts: readonly PencilledCut[];
  },
): StripPiece {
  const { strip, bars, people } = desk;
  const barAt = (index: number) => strip.bars.find(({ barIndex }) => barIndex === index);
  const notes = openSpanComments(room.comments).flatMap((comment): StripNote[] => {
    const bar = barAt(spanOfComment(comment)?.firstBar ?? -1);
    return bar ? [{ at: bar.from, id: comment.id, ink: inkOfAuthor(people, comment.authorId) }] : [];
  });
  const breaths = room.breaths.flatMap(({ at }): StripBreath[] => {
    const bar = barAt(at.barIndex);
    const length = readQuarters(bars[at.barIndex]?.length ?? "");
    if (!bar || !length || length.num === 0) return [];
    const part = quartersAsNumber(at.offset) / quartersAsNumber(length);
    return [{ at: bar.from + (bar.to - bar.from) * part, isAgreed: true }];
  });
  const byTime = (a: { at: number }, b: { at: number }) => a.at - b.at;
  const pencils = pencilsOnStrip(desk, room.pencilledCuts);
  return { ...strip, notes: notes.sort(byTime), breaths: breaths.sort(byTime), pencils };
}

/** Where the others look, on the strip: where the bar at the top of their score first sounds. */
export function looksOnStrip(
  { strip, people }: Pick<Desk, "strip" | "people">,
  present: readonly PresentPerson[],
): StripLook[] {
  return present.flatMap(({ userId, barIndex, isMe }): StripLook[] => {
    const bar = strip.bars.find((one) => one.barIndex === barIndex);
    const person = people.find((one) => one.userId === userId);
    if (isMe || !bar || !person) return [];
    return [{ userId, at: bar.from, ink: inkOf(person.role), initial: person.initial }];
  });
}
