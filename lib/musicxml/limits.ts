/**
 * How much of a file is taken in. The figures leave room for the largest orchestral scores (a symphony of 25 staves is
 * about 20 MB, 800,000 elements and 150,000 notes) and keep reading within a few seconds and half a gigabyte.
 */
export const readLimits = {
  /** Of the file as it was sent, zipped or not. */
  fileBytes: 64_000_000,
  /** Of the XML text, unzipped and decoded. */
  textBytes: 64_000_000,
  /** Of nested elements. MusicXML itself needs 9. */
  depth: 64,
  /** Elements, comments, CDATA sections and processing instructions together. */
  nodes: 1_000_000,
  attributesPerElement: 256,
  /**
   * Characters of one text, tag, comment, CDATA section or processing instruction: the parser may hold 60 times as
   * many bytes until it is complete.
   */
  tokenCharacters: 500_000,
  parts: 400,
  bars: 20_000,
  /** Bars times parts. */
  measures: 200_000,
  /** Notes and rests of all parts. */
  notes: 250_000,
  /** Slurs, articulations, lyrics… on one note. */
  signsPerNote: 64,
  containerEntries: 1_000,
  /** Declared for all entries of a container together. */
  containerBytes: 256_000_000,
  /** Unzipped to zipped size; plain MusicXML text reaches about 60. */
  containerRatio: 250,
  /** Below this unzipped size the ratio is not looked at. */
  ratioFreeBytes: 1_000_000,
  notices: 500,
  /** Characters of one text: a title, a name, words above a staff, a syllable. */
  textCharacters: 2_000,
} as const;

/**
 * The finest and the longest time that is computed with: fractions of up to 1/100,000 of a quarter note, 25,000 bars of
 * common time. The sum, difference or comparison of any two such times stays within the integers that are exact.
 */
export const timeLimits = {
  denominator: 100_000,
  quarters: 100_000,
} as const;
