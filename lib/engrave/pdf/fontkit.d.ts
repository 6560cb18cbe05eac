/** The part of the font reader that is used. Version 2 ships no types. */
declare module "fontkit" {
  export interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string): { readonly advanceWidth: number };
  }
  export function create(file: Uint8Array): Font;
}
