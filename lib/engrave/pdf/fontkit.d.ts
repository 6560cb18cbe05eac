/** The part of the font reader that is used. Version 2 ships no types. */
declare module "fontkit" {
  export interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string): {
      readonly advanceWidth: number;
      readonly glyphs: readonly { readonly id: number; readonly path: { toSVG(): string } }[];
      readonly positions: readonly {
        readonly xAdvance: number;
        readonly xOffset: number;
        readonly yOffset: number;
      }[];
    };
  }
  export function create(file: Uint8Array): Font;
}
