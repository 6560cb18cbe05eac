/** A foreseeable reason why the product cannot start; its message is one sentence for the person who started it. */
export class StartFailure extends Error {
  /** @param {string} sentence */
  constructor(sentence) {
    super(sentence);
    this.name = "StartFailure";
  }
}
