/** Pages for one reader, printed from an edition. */
export type PageReader = "pianist" | "soloist";

const form = /^pages\/edition-[1-9]\d{0,2}-(pianist|soloist)\.pdf$/;

/** The file of the pages of an edition. */
export const pagesName = (number: number, reader: PageReader): string =>
  `pages/edition-${number}-${reader}.pdf`;

/** Whether a file is printed pages, which the hash of a piece does not stand for. */
export const isPages = (name: string): boolean => form.test(name);
