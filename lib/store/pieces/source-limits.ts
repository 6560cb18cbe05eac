/** Largest accepted file. The longest orchestral movements stay far below as MusicXML. */
export const largestSourceBytes = 64 * 1024 * 1024;
