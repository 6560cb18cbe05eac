import type { Position } from "@/lib/score/position";

interface Done {
  readonly at: Date;
  /** Who did it. */
  readonly byId: string;
}

/** A new or reworded comment of somebody else's. */
export interface CommentNews extends Done {
  readonly kind: "comment" | "reply" | "reworded";
  readonly text: string;
  /** The bars it is about; null when it is about a proposal. */
  readonly span: { readonly from: Position; readonly to: Position } | null;
  readonly namesMe: boolean;
}

/** Pencil work of somebody else's: told by its number, not one by one. */
export interface PencilNews extends Done {
  readonly kind: "pencilled-cut" | "breath" | "cue" | "resolution";
}

/** An entry of the trail: a cut proposed or answered, an edition frozen, and so on. */
export interface TrailNews extends Done {
  readonly kind: "trail";
  /** In the past tense, as the trail has it: "cut agreed". */
  readonly what: string;
  /** The number of the cut or of the edition; null where there is none. */
  readonly number: number | null;
}

/** Something that others did in a piece while a person was away. */
export type News = CommentNews | PencilNews | TrailNews;

/** Whether the person is named in it. */
export function namesMe(news: News): boolean {
  return "namesMe" in news && news.namesMe;
}
