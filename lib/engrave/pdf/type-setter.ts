import type { FaceName, PrintFonts } from "./print-fonts";
import { splitByFace } from "./text-runs";

export interface TextStyle {
  readonly face: FaceName;
  readonly size: number;
  readonly align?: "left" | "center" | "right";
  /** Grey from 0, black, to 1; for second text only. */
  readonly grey?: number;
}

/** Measures text in the faces of the printed page. */
export class TypeSetter {
  constructor(readonly fonts: PrintFonts) {}

  /** Width of text, in points. */
  measure(text: string, { face, size }: Pick<TextStyle, "face" | "size">): number {
    return splitByFace(text, face, this.fonts.has).reduce(
      (sum, run) => sum + this.fonts.advance(run.face, run.text) * size,
      0,
    );
  }

  /** Words broken into lines no wider than `width`; a word that is wider stands alone. */
  wrap(text: string, width: number, style: TextStyle): string[] {
    const lines: string[] = [];
    let line = "";
    for (const word of text.split(/\s+/).filter((each) => each !== "")) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (line !== "" && this.measure(longer, style) > width) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    return line === "" ? lines : [...lines, line];
  }
}
