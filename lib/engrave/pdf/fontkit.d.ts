/** The part of the font reader that is used. Version 2 ships no types. */
declare module "fontkit" {
  export interface Font {
    hasGlyphForCodePoint(codePoint: number): boolean;
  }
  export function create(file: Uint8Array): Font;
}
