import { child, childElements, childrenNamed, textOf, type XmlElement } from "./xml-tree";

/** Title, movement and composer as the head of the score gives them. */
export interface ScoreHead {
  readonly title: string | null;
  readonly movement: string | null;
  readonly composer: string | null;
}

/** From `work`, `movement-title` and `identification`; where they are missing, from `credit` texts so typed. */
export function readScoreHead(root: XmlElement): ScoreHead {
  const work = child(root, "work");
  const identification = child(root, "identification");
  const creators = identification === null ? [] : childrenNamed(identification, "creator");
  const composer = creators.find(({ attributes }) => attributes.type === "composer") ?? null;
  const title = filled(textOf(work && child(work, "work-title")));
  const movement = filled(textOf(child(root, "movement-title")));
  return {
    title: title ?? (movement === null ? creditOf(root, "title") : null),
    movement,
    composer: filled(textOf(composer)) ?? creditOf(root, "composer"),
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
