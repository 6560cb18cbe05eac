import type { NormaliseOptions } from "./normalise/normalise";

/** How a score is laid out. Lengths of the engraver: `unit` is half the distance of two staff lines. */
export interface EngraveLayout {
  /** Width of a system, in units. A staff is 8 units high. */
  readonly systemUnits: number;
  /** How much wider a long note is than a short one: 0 not at all, 1 in proportion. */
  readonly spacing: number;
  /** A number over every bar, or at the start of each system. */
  readonly barNumbers: "every-bar" | "every-system";
  readonly firstLabels: NormaliseOptions["firstLabels"];
  /** Whether wanted breaks are taken when a system is nearly full anyway. */
  readonly takesWantedBreaks: boolean;
  /** Size of cue and grace notes beside the others; three quarters when it is not said. */
  readonly smallNotes?: number;
  /** Whether the last system is as wide as the others however little it holds. */
  readonly fillsLastSystem: boolean;
}

export type ScreenLayoutName = "desk" | "tablet" | "phone";

/**
 * A staff is 24 CSS pixels high on the desk and the tablet and 22 on the phone, in columns of 940, 800 and 366 pixels:
 * about four, three and one to two bars a system.
 */
export const screenLayouts: Readonly<Record<ScreenLayoutName, EngraveLayout>> = {
  desk: screenLayout(940, 24),
  tablet: screenLayout(800, 24),
  phone: screenLayout(366, 22),
};

function screenLayout(columnPixels: number, staffPixels: number): EngraveLayout {
  return {
    systemUnits: (columnPixels / staffPixels) * 8,
    spacing: 0.7,
    barNumbers: "every-bar",
    firstLabels: "short",
    takesWantedBreaks: false,
    fillsLastSystem: false,
  };
}

/** The layout as options of the engraver (verovio 6.3.0), with one system on each page. */
export function toolkitOptions(layout: EngraveLayout): Readonly<Record<string, unknown>> {
  return {
    unit: 9,
    scale: 100,
    pageWidth: Math.round(layout.systemUnits * 9),
    // Less than any system needs: each page then holds exactly one, and grows to its height.
    pageHeight: 100,
    adjustPageHeight: true,
    breaks: layout.takesWantedBreaks ? "smart" : "auto",
    breaksNoWidow: true,
    pageMarginLeft: 24,
    pageMarginRight: 12,
    pageMarginTop: 24,
    pageMarginBottom: 24,
    header: "none",
    footer: "none",
    svgViewBox: true,
    svgFormatRaw: true,
    smuflTextFont: "none",
    // The same score gives the same picture.
    xmlIdSeed: 1,
    mnumInterval: layout.barNumbers === "every-bar" ? 1 : 0,
    spacingNonLinear: layout.spacing,
    spacingLinear: 0.25,
    justifyVertically: false,
    minLastJustification: layout.fillsLastSystem ? 0 : 0.5,
    graceFactor: layout.smallNotes ?? 0.75,
    lyricSize: 4.5,
    // The engraver measures words in Times, by which our face is up to an eighth wider: more than twice its usual gap (1.2)
    // keeps two sung words apart.
    lyricWordSpace: 3,
  };
}

/**
 * What to load the engraver's own notation with: the ids that it makes up for elements without one must not be those that it gave
 * others when it made that notation, or it draws a hairpin into an accidental of the same id.
 */
export const reloadOptions = { xmlIdSeed: 2 } as const;
