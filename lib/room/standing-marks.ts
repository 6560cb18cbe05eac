import type * as Y from "yjs";
import type { Position } from "@/lib/score/position";
import type { Breath } from "./breath";
import type { Comment } from "./comment";
import type { Cue } from "./cue";
import { readBreaths } from "./read-breaths";
import { readComments } from "./read-comments";
import { readCues } from "./read-cues";

/** What stands in a room and is a part of the edition that is being made. */
export interface StandingMarks {
  readonly breaths: readonly { readonly at: Position }[];
  readonly cues: readonly { readonly at: Position; readonly text: string }[];
  /** Comments that their authors want printed. */
  readonly remarks: readonly {
    readonly from: Position;
    readonly to: Position;
    readonly text: string;
    readonly authorId: string;
  }[];
}

/** The marks of a document. A comment that was resolved is printed nevertheless, until its author says otherwise. */
export function readStandingMarks(doc: Y.Doc): StandingMarks {
  return pickStandingMarks({ breaths: readBreaths(doc), cues: readCues(doc), comments: readComments(doc) });
}

/** The same of a room that is open. */
export function pickStandingMarks(room: {
  readonly breaths: readonly Breath[];
  readonly cues: readonly Cue[];
  readonly comments: readonly Comment[];
}): StandingMarks {
  return {
    breaths: room.breaths.map(({ at }) => ({ at })),
    cues: room.cues.map(({ at, text }) => ({ at, text })),
    remarks: room.comments.flatMap(({ about, text, authorId, deletedAt, print }) =>
      print && deletedAt === null && about.kind === "span"
        ? [{ from: about.from, to: about.to, text, authorId }]
        : [],
    ),
  };
}
