import fc from "fast-check";

/**
 * The same random cases in every run, so that a change is judged by what it changed. `COLLA_LAWS_SEED=random` looks
 * for cases that nobody has met yet; a number repeats those of a run that failed.
 */
const asked = process.env.COLLA_LAWS_SEED ?? "17";
if (asked !== "random") {
  const seed = Number(asked);
  if (!Number.isSafeInteger(seed)) throw new RangeError(`COLLA_LAWS_SEED is no whole number: ${asked}`);
  fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
}
