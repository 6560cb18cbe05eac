/** Why an archive, or a file in it, cannot be unpacked. */
export type ZipProblem =
  | { readonly kind: "broken" }
  | { readonly kind: "encrypted" }
  | {
      readonly kind: "unsafe";
      readonly reason: "too-many-entries" | "too-large" | "ratio" | "false-size";
    };
