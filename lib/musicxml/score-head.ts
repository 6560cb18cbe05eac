import { clippedSentence, clipText } from "./clip-text";
import type { NoticeBook } from "./notice-book";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "./xml-tree";

/** Title, movement and composer as the head of the score gives them. */
export interface ScoreHead {
  readonly title: string | null;
  readonly movement: string | null;
  readonly composer: string | null;
}

/** From `work`, `movement-title` and `identification`; where they are missing, from `credit` texts so typed. */
export function readScoreHead(root: XmlElement, notices: NoticeBook): ScoreHead {
  const clip = (text: string | null) =>
    text === null ? null : clipText(text, () => notices.add("text-cut", clippedSentence));
  const work = child(root, "work");
  const identification = child(root, "identification");
  const creators = identification === null ? [] : childrenNamed(identification, "creator");
  const composer = creators.find(({ attributes }) => attributes.type === "composer") ?? null;
  const title = filled(textOf(work && child(work, "work-title")));
  const movement = filled(textOf(child(root, "movement-title")));
  return {
    title: clip(title ?? (movement === null ? creditOf(root, "title") : null)),
    movement: clip(movement),
    composer: clip(filled(textOf(composer)) ?? creditOf(root, "composer")),
  };
}

function filled(text: string): string | null {
  const trimmed = text.trim();
  return trimmed === "" ? null : trimmed;
}

function creditOf(root: XmlElement, type: string): string | null {
  for (const credit of childrenNamed(root, "credit")) {
    const types = childrenNamed(credit, "credit-type").map((found) => textOf(found).trim());
    if (!types.includes(type)) continue;
    const words = childElements(credit).filter(({ name }) => name === "credit-words");
    return filled(words.map(textOf).join(" "));
  }
  return null;
}
