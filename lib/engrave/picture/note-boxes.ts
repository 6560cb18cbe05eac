import type { Move, PictureSign } from "./picture-words";
import { boxOfLine, boxOfSign, type SignReach } from "./sign-boxes";

/**
 * What signs of the music font (Leipzig) cover at most, from their place, in thousandths of their size. Measured by eye: words
 * only have to keep off them.
 */
const reaches: Readonly<Record<string, SignReach>> = {
  accid: { right: 260, over: 350, under: 200 },
  artic: { right: 340, over: 260, under: 120 },
  dynam: { right: 700, over: 450, under: 190 },
  fermata: { right: 600, over: 450, under: 60 },
  mRest: { right: 300, over: 130, under: 130 },
  notehead: { right: 330, over: 130, under: 130 },
  rest: { right: 300, over: 380, under: 380 },
  trill: { right: 600, over: 400, under: 60 },
};
/** Of lines and shapes. */
const shaped = new Set(["beam", "hairpin", "stem"]);
const shapes = new Set(["path", "polygon", "polyline", "rect"]);

/** Gathers where the notes of a picture are, with their stems and signs. Fed with its elements in document order. */
export class NoteGatherer {
  private readonly around: (string | null)[] = [];
  private readonly found: PictureSign[] = [];

  /** @param shift of the element and all around it. */
  open(
    name: string,
    classes: readonly string[],
    attributes: Readonly<Record<string, string>>,
    shift: Move,
  ): void {
    const kind = classes.find((each) => each in reaches || shaped.has(each));
    this.around.push(kind ?? this.around.at(-1) ?? null);
    const own = this.around.at(-1) ?? "";
    const reach = name === "use" ? reaches[own] : undefined;
    if (reach) this.found.push(boxOfSign(attributes.transform ?? "", shift, reach));
    if (!shapes.has(name) || !shaped.has(own)) return;
    const box = boxOfLine(attributes.d ?? attributes.points ?? "", shift);
    if (box) this.found.push(box);
  }

  close(): void {
    this.around.pop();
  }

  list(): readonly PictureSign[] {
    return this.found;
  }
}
