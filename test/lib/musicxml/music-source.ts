/** MusicXML text of small scores for tests: what stands in the measures is given, the frame is not. */

export interface PartSource {
  readonly name?: string;
  /** Extra children of its `score-part`. */
  readonly listed?: string;
  /** What stands in each measure; a measure with attributes of its own is given whole. */
  readonly measures: readonly string[];
}

/** 2 divisions to a quarter note, 4/4, C major, on the first measure of each part unless it says otherwise. */
export const usualAttributes =
  "<attributes><divisions>2</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";

export function sourceOf(...parts: readonly PartSource[]): string {
  const list = parts.map(({ name, listed }, index) => {
    return `<score-part id="P${index + 1}"><part-name>${name ?? `Part ${index + 1}`}</part-name>${listed ?? ""}</score-part>`;
  });
  const written = parts.map(({ measures }, index) => {
    return `<part id="P${index + 1}">${measures.map(measureOf).join("\n")}</part>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0"><part-list>${list.join("")}</part-list>${written.join("")}</score-partwise>`;
}

function measureOf(content: string, index: number): string {
  if (content.startsWith("<measure")) return content;
  const attributes = index === 0 && !content.includes("<divisions>") ? usualAttributes : "";
  return `<measure number="${index + 1}">${attributes}${content}</measure>`;
}

/** A note of so many eighths; `more` stands after the voice. */
export function note(pitch: string, eighths: number, more = "", voice = "1"): string {
  const [step, octave] = [pitch.slice(0, -1), pitch.slice(-1)];
  return `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>${eighths}</duration><voice>${voice}</voice>${more}</note>`;
}

export const barRest = (eighths: number): string =>
  `<note><rest measure="yes"/><duration>${eighths}</duration><voice>1</voice></note>`;

export const words = (text: string, more = ""): string =>
  `<direction><direction-type><words>${text}</words></direction-type>${more}</direction>`;

export const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
