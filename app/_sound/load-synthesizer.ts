/** The library that speaks to the synthesizer in its worklet: fetched when somebody listens, or to be kept for later. */
export function loadSynthesizer() {
  return import("spessasynth_lib");
}
