import type { Position } from "@/lib/score/position";
import type { CommentRecord } from "../comment-record";
import type { PencilledVersionRecord } from "../pencilled-version-record";
import { toPosition } from "../position-record";
import type { RoomChange } from "./room-change";

/** How people, bars and things are called where a change is told. */
export interface RoomNames {
  nameOf(userId: string): string;
  /** A span, its end exclusive: "bars 12–14". */
  sayBars(from: Position, to: Position): string;
  /** A place: "bar 31", "bar 31 beat 2". */
  sayPlace(at: Position): string;
  /** What a proposal is called: "the cut of bars 104–111". */
  sayProposal(proposalId: string): string;
  /** A comment as it last was; null when it is not known. */
  findComment(commentId: string): CommentRecord | null;
  findVersion(versionId: string): PencilledVersionRecord | null;
}

type ChangeIn<Name extends RoomChange["map"]> = Extract<RoomChange, { map: Name }>;

/** Longest piece of a comment that is quoted, in characters. */
const quotedLength = 120;

/** One sentence: "Nerys Quill reworded their comment on bars 12–14: “Wait for the breath.”" */
export function sayRoomChange(change: RoomChange, names: RoomNames): string {
  if (change.after === null) return "Something was not there any more when the room began anew.";
  const who = change.userId === null ? "When the room began anew, somebody" : names.nameOf(change.userId);
  const said = `${who} ${sayDeed(change, names)}`;
  return change.isOvertaken ? `${said} At the same time something else was written, and that stands.` : said;
}

function sayDeed(change: RoomChange, names: RoomNames): string {
  switch (change.map) {
    case "comments":
      return sayComment(change, names);
    case "resolutions":
      return sayResolution(change, names);
    case "breaths":
      return sayBreath(change, names);
    case "pencilledCuts":
      return sayPencilling(change, names);
    case "cues":
      return sayCue(change, names);
    default:
      return assertNever(change);
  }
}

function sayComment({ before, after }: ChangeIn<"comments">, names: RoomNames): string {
  if (after === null) return "took a comment away.";
  const what = `comment on ${saySubject(after, names)}`;
  if (before === null) {
    const deed = after.replyTo === null ? "commented" : "answered a comment";
    return `${deed} on ${saySubject(after, names)}: ${quote(after.text)}`;
  }
  if (before.deletedAt === null && after.deletedAt !== null)
    return `deleted their ${what}: ${quote(after.text)}`;
  if (before.deletedAt !== null && after.deletedAt === null)
    return `brought their ${what} back: ${quote(after.text)}`;
  if (before.text !== after.text)
    return `reworded their ${what}: ${quote(after.text)} Before: ${quote(before.text)}`;
  if (before.print !== after.print) {
    const deed = after.print ? "wants their" : "no longer wants their";
    return `${deed} ${what} printed in the edition: ${quote(after.text)}`;
  }
  return `wrote their ${what} again.`;
}

function sayResolution({ key, after }: ChangeIn<"resolutions">, names: RoomNames): string {
  const comment = names.findComment(key);
  const what = comment
    ? `the comment on ${saySubject(comment, names)}: ${quote(comment.text)}`
    : "a comment that is no longer here.";
  return `${after?.isResolved ? "resolved" : "reopened"} ${what}`;
}

function sayBreath({ before, after }: ChangeIn<"breaths">, names: RoomNames): string {
  if (after === null) return "took a breath away.";
  const where = names.sayPlace(toPosition(after.at));
  if (after.deletedAt !== null) return `took the breath away at ${where}.`;
  if (before === null) return `marked a breath at ${where}.`;
  if (before.deletedAt !== null) return `brought the breath at ${where} back.`;
  return `moved the breath from ${names.sayPlace(toPosition(before.at))} to ${where}.`;
}

function sayCue({ before, after }: ChangeIn<"cues">, names: RoomNames): string {
  if (after === null) return "took a cue away.";
  const where = names.sayPlace(toPosition(after.at));
  if (after.deletedAt !== null) return `took the cue ${quote(after.text)} off ${where}.`;
  if (before === null) return `wrote the cue ${quote(after.text)} over ${where}.`;
  if (before.deletedAt !== null) return `brought the cue ${quote(after.text)} back over ${where}.`;
  if (before.text !== after.text)
    return `wrote ${quote(after.text)} instead of ${quote(before.text)} over ${where}.`;
  return `moved the cue ${quote(after.text)} from ${names.sayPlace(toPosition(before.at))} to ${where}.`;
}

function sayPencilling({ after }: ChangeIn<"pencilledCuts">, names: RoomNames): string {
  if (after === null) return "took a pencilled cut away.";
  const sayCut = ({ from, to }: PencilledVersionRecord) => names.sayBars(toPosition(from), toPosition(to));
  const over = after.over.map(names.findVersion).filter((version) => version !== null);
  const [old] = over;
  if (after.isRubbedOut) return `rubbed out the pencilled cut of ${sayCut(after)}.`;
  if (after.over.length > 1) return `settled on the pencilled cut of ${sayCut(after)}.`;
  if (old?.isRubbedOut) return `brought the pencilled cut of ${sayCut(after)} back.`;
  if (old) return `moved the pencilled cut of ${sayCut(old)} to ${sayCut(after)}.`;
  return `pencilled in a cut of ${sayCut(after)}.`;
}

function saySubject({ about }: CommentRecord, names: RoomNames): string {
  if (about.kind === "proposal") return names.sayProposal(about.proposalId);
  return names.sayBars(toPosition(about.from), toPosition(about.to));
}

/** “In quotation marks”, cut short between two words where it is long. */
function quote(text: string): string {
  const line = text.replace(/\s+/gu, " ").trim();
  const characters = [...line];
  if (characters.length <= quotedLength) return `“${line}”`;
  const short = characters.slice(0, quotedLength).join("");
  const end = short.lastIndexOf(" ");
  return `“${end > quotedLength / 2 ? short.slice(0, end) : short}…”`;
}

function assertNever(change: never): never {
  throw new RangeError(`Unknown change: ${JSON.stringify(change)}`);
}
