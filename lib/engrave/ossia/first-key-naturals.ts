/** SMuFL: the natural. */
const natural = /^#?E261/;

/**
 * Finds the naturals in the key with which an ossia begins: the engraver (verovio 6.3.0) draws it as a change from the key before,
 * but nothing of that stands before it. Fed with the elements of a picture in document order.
 */
export class FirstKeyNaturals {
  private readonly around: (string | null)[] = [];
  private hasClef = false;

  /** To be called for each element that is written. */
  open(classes: readonly string[]): void {
    const own = classes.find((each) => each === "oStaff" || each === "clef" || each === "keyAccid") ?? null;
    if (own === "oStaff") this.hasClef = false;
    if (own === "clef" && this.around.includes("oStaff")) this.hasClef = true;
    this.around.push(own);
  }

  close(): void {
    this.around.pop();
  }

  /** Whether an element is such a natural. */
  has(name: string, { href, "xlink:href": linked }: Readonly<Record<string, string>>): boolean {
    if (name !== "use" || !this.hasClef || this.around.at(-1) !== "keyAccid") return false;
    return this.around.includes("oStaff") && natural.test(href ?? linked ?? "");
  }
}
