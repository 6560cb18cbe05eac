import type { SuccessionFeature } from "./succession-features";

/**
 * How much each feature says for or against one side following another.
 *
 * Source: conditional logit of the true next bar against all bars of the piece, fitted on 36 public scores
 * (`test/bench/succession.bench.ts` fits it again and tells how well weights from other works do: area under the curve
 * .976 on orchestral scores, .932 on songs, .973 on solo and piano). The two weights above 0 but for `association` say
 * that music moves on: at a bar line the harmony changes more often than it stays.
 */
export const successionWeights: Readonly<Record<SuccessionFeature, number>> = {
  topLeap: -0.3357,
  bassLeap: -0.2115,
  voiceLeading: -0.4606,
  foreignTones: 1.4199,
  laneLeap: -1.0861,
  laneRhythm: -0.0482,
  rhythm: -0.7119,
  farRhythm: -0.2771,
  density: -0.0343,
  likeness: 0.4196,
  centroid: -0.7347,
  lanes: -2.811,
  held: -4.7113,
  slurs: -5.1288,
  hairpin: -4.563,
  level: -1.6276,
  association: 1.289,
  key: -0.1185,
  signature: -1.233,
  silence: -0.6793,
};
